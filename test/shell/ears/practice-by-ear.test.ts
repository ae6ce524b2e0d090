import {describe, expect, test} from 'vitest';
import type {Rng} from '../../../source/numeric/rng.ts';
import {rngFrom} from '../../../source/numeric/rng.ts';
import {truth} from '../../../source/practice/index.ts';
import {soundCents} from '../../../source/practice/sound.ts';
import {defaultSheet} from '../../../source/session/catalog/default-sheet.ts';
import {record} from '../../../source/session/journal.ts';
import {performPractice, practiceGuitarOf} from '../../../source/session/practice-world.ts';
import type {Job} from '../../../source/session/sheet.ts';
import {askedPitch, semitonesUp} from '../../../source/shell/ears/asked-pitch.ts';
import type {EarEvent} from '../../../source/shell/ears/ears.ts';
import type {Ports} from '../../../source/shell/ports.ts';
import {moveAhead, seenBy} from '../../../source/shell/seen.ts';
import type {Sitting} from '../../../source/shell/state.ts';
import {startSetup} from '../../../source/shell/wizard.ts';
import {earPorts, pluckAt, told} from '../../helpers/ears.ts';

/** The ear's own error in this simulation, cents, one standard deviation. */
const earSdCents = 0.08;

interface ByEar {
	readonly end: Sitting;
	/** Keys pressed, of all kinds; plucks heard; plucks that were asked about; taken on demand. */
	readonly keys: number;
	readonly plucks: number;
	readonly asked: number;
	readonly onDemand: number;
}

/**
 * A practice guitar through the whole wizard with both hands on it: simulated
 * hands turn and pluck, the pitch that truly sounds is heard, keys are pressed
 * only where no pitch is asked for.
 */
function setUpByEar(job: Job, seed: number): ByEar {
	const ports: Ports = {
		...earPorts(),
		firstSheet: practiceSeed => ({
			...defaultSheet(),
			job,
			name: 'Practice guitar',
			...(practiceSeed !== undefined && {practiceSeed}),
		}),
	};
	const rng = rngFrom(31, seed);
	let sitting = told(startSetup(ports, seed), ports, 'tab', {kind: 'open', from: 'parec'});
	const tally = {keys: 0, plucks: 0, asked: 0, onDemand: 0};
	for (let steps = 0; steps < 900; steps++) {
		const seen = seenBy(sitting, ports);
		if (!seen.stage) return {end: sitting, ...tally};
		const asked = askedPitch(seen, sitting.entry);
		const before = sitting;
		if (asked) {
			const heard = soundOf(sitting, ports, rng);
			sitting = told(sitting, ports, heard);
			tally.plucks++;
			if (sitting.asking) {
				tally.asked++;
				sitting = told(sitting, ports, 'enter');
			} else if (sitting.journal === before.journal && heard.kind === 'pluck') {
				// Off its aim: whoever has stopped there says so.
				tally.onDemand++;
				sitting = told(sitting, ports, '=', {kind: 'now', tone: heard.pluck.tone!});
			}
		} else {
			tally.keys++;
			sitting = told(sitting, ports, moveAhead(seen, sitting.entry) ? ' ' : 'enter');
		}

		if (sitting.journal === before.journal)
			throw new Error(`nothing came of “${seen.task.headline}”: ${sitting.ear?.note} / ${sitting.message?.text}`);
	}

	throw new Error(`no end; the last: ${seenBy(sitting, ports).task.headline}`);
}

/** What sounds once the hands have done what is asked. */
function soundOf(sitting: Sitting, ports: Ports, rng: Rng): EarEvent {
	const seen = seenBy(sitting, ports);
	const asked = askedPitch(seen, sitting.entry)!;
	const {story} = sitting.journal;
	const deeds = performPractice(story, moveAhead(seen, sitting.entry)!);
	const hands = deeds.filter(({type}) => type !== 'PitchRead');
	const guitar = practiceGuitarOf(record(sitting.journal, hands, 0).story)!;
	const {how, fret, string} = asked;
	const cents = soundCents(guitar, string - 1, fret === undefined ? {how} : {how, fret});
	if (cents === undefined) throw new Error(`string ${string} is slack`);
	const {targetHz} = seen.bench.strings[string - 1]!;
	const hz = targetHz * 2 ** (semitonesUp(asked) / 12 + (cents + earSdCents * rng.normal()) / 1200);
	return pluckAt(hz, {sdCents: earSdCents});
}

describe.each<[Job, number]>([
	['whole', 3],
	['intonation', 4],
	// Put away with its strings let down: on a level support, and the claw led by ear.
	['whole', 49],
])('a practice guitar, job %s, by ear alone', (job, seed) => {
	const {end, keys, plucks, asked, onDemand} = setUpByEar(job, seed);
	const reads = end.journal.story.filter(fact => fact.type === 'PitchRead');

	test('comes out in tune and intonated', () => {
		const hidden = truth(practiceGuitarOf(end.journal.story)!);
		for (const cents of hidden.cents) expect(Math.abs(cents!), 'open, cents').toBeLessThan(1.5);
		for (const cents of hidden.fretted12ErrorCents) expect(Math.abs(cents!), 'fretted 12th, cents').toBeLessThan(2.5);
	});

	test('a guitar put away let down is brought back by the claw, led by what is heard', () => {
		const led = end.journal.story.filter(fact => fact.type === 'ClawTurned' && fact.until !== undefined);
		expect(led.length > 0).toBe(seed === 49);
	});

	test('every pitch was heard, none typed', () => {
		expect(reads.length).toBeGreaterThan(20);
		expect(reads.every(({heard}) => heard !== undefined)).toBe(true);
	});

	test('hands seldom leave the guitar: few plucks are asked about or taken on demand', () => {
		expect(asked).toBeLessThanOrEqual(2 + 0.1 * plucks);
		expect(onDemand).toBeLessThanOrEqual(2 + 0.1 * plucks);
		expect(keys).toBeLessThan(plucks + 60);
	});
});
