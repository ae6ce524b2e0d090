import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import type {StringNumber} from '../../source/music/string-number.ts';
import {decide} from '../../source/session/decide.ts';
import {evolve, stateOf} from '../../source/session/evolve.ts';
import type {Deed} from '../../source/session/facts.ts';
import {instrumentFrom} from '../../source/session/instrument.ts';
import {initialState, type SessionState} from '../../source/session/state.ts';
import {anyDeed, anySheet, filled, journalOf, opened, read, sheet} from '../helpers/deeds.ts';

const clamped: Deed = {type: 'NutClamped'};
const slack = (string: StringNumber): Deed => ({type: 'StringSlackened', string});
const peg = (string: StringNumber): Deed => ({type: 'PegTurned', string});
const saddle = (string: StringNumber, travelMm: number): Deed => ({type: 'SaddleMoved', string, travelMm});

/** What the bench says to `deeds` after the intake, the nut opened, and `story`. */
const benchAfter = (...story: readonly Deed[]) => {
	const state = stateOf(journalOf(filled, opened, ...story).story);
	return (...deeds: readonly Deed[]) => decide(deeds, state);
};

describe('a saddle', () => {
	test('is moved on a slack string', () => {
		expect(benchAfter(slack(3))(saddle(3, 1.5)).ok).toBe(true);
	});

	test('is not moved on a tight one, and the sentence says what to do first', () => {
		expect(benchAfter()(saddle(3, 1.5))).toMatchObject({
			refused: 'not-slack',
			said: 'String 3 is not slack. Slacken it first: the saddle screw is only loosened on a slack string.',
		});
	});

	test('is moved in the same entry that slackens its string', () => {
		const deeds = [slack(3), saddle(3, -0.8)];
		expect(benchAfter()(...deeds)).toEqual({ok: true, deeds});
	});

	test('is not moved once the string was tuned up again', () => {
		expect(benchAfter(slack(3), peg(3))(saddle(3, 1))).toMatchObject({refused: 'not-slack'});
	});

	test('is moved while its string is off', () => {
		expect(benchAfter({type: 'StringRemoved', string: 3})(saddle(3, 1)).ok).toBe(true);
	});

	test('does not travel farther than any bridge has', () => {
		expect(benchAfter(slack(3))(saddle(3, 150))).toMatchObject({
			refused: 'out-of-range',
			said: 'Saddle travel: read 150 mm; allowed is -20 to 20 mm, for example 1.5.',
		});
	});
});

describe('the nut', () => {
	test('clamped keeps the pegs from the strings; the fine tuners still reach them', () => {
		expect(benchAfter(clamped)(peg(2))).toMatchObject({refused: 'nut-clamped'});
		expect(benchAfter(clamped)({type: 'FineTunerTurned', string: 2}).ok).toBe(true);
		expect(benchAfter()({type: 'FineTunerTurned', string: 2}, peg(2)).ok).toBe(true);
	});

	test('is not clamped twice, nor opened twice', () => {
		expect(benchAfter(clamped)(clamped)).toMatchObject({refused: 'nut-clamped-already'});
		expect(benchAfter()(opened)).toMatchObject({refused: 'nut-open-already'});
	});

	test('clamped keeps a string from being slackened', () => {
		expect(benchAfter(clamped)(slack(2))).toMatchObject({refused: 'nut-clamped'});
	});
});

describe('the support', () => {
	test('comes out only if it is in, and goes in only once', () => {
		expect(benchAfter()({type: 'SupportRemoved'})).toMatchObject({refused: 'no-support'});
		expect(benchAfter({type: 'SupportPlaced'})({type: 'SupportPlaced'})).toMatchObject({refused: 'support-in-already'});
		expect(benchAfter({type: 'SupportPlaced'})({type: 'SupportRemoved'}).ok).toBe(true);
	});
});

describe('a string that is off', () => {
	const gone = benchAfter({type: 'StringRemoved', string: 4});

	test.each<[Deed, string]>([
		[read(4, -3), 'string-off'],
		[peg(4), 'string-off'],
		[{type: 'FineTunerTurned', string: 4}, 'string-off'],
		[{type: 'StringStretched', string: 4}, 'string-off'],
		[{type: 'StringSlipped', string: 4}, 'string-off'],
		[slack(4), 'off-already'],
		[{type: 'StringRemoved', string: 4}, 'off-already'],
	])('does not do this: %o', (deed, refused) => {
		expect(gone(deed)).toMatchObject({ok: false, refused, deed});
	});

	test('is fitted, then read; one that is on is not fitted', () => {
		expect(gone({type: 'StringFitted', string: 4}, read(4, -300)).ok).toBe(true);
		expect(gone({type: 'StringFitted', string: 5})).toMatchObject({refused: 'on-already'});
	});
});

test('nothing is freed that no support holds', () => {
	const freed = {
		type: 'ClawTurned',
		trebleTurns: 1,
		bassTurns: 1,
		until: {string: 6, cents: 0, from: 'rising'},
	} as const;
	expect(benchAfter()(freed)).toMatchObject({ok: false, refused: 'no-support'});
	expect(benchAfter({type: 'SupportPlaced', tailMm: 0})(freed).ok).toBe(true);
});

describe('numbers', () => {
	test.each<[string, Deed]>([
		['three octaves away', read(1, 3601)],
		['claw turns by the dozen', {type: 'ClawTurned', trebleTurns: 0, bassTurns: 40}],
		['no spring', {type: 'SpringsChanged', springs: 0}],
		['half a spring', {type: 'SpringsChanged', springs: 2.5}],
		['a tail in the air', {type: 'PlateMeasured', tailMm: 90, entered: '90'}],
		['a saddle in the neck', {type: 'SaddleMeasured', string: 1, positionMm: -300}],
		['no number', {type: 'PlateMeasured', tailMm: Number.NaN, entered: 'x'}],
		['infinity', {type: 'ClawTurned', trebleTurns: Number.POSITIVE_INFINITY, bassTurns: 0}],
		['a fret that no neck has', {type: 'PitchRead', string: 1, how: 'fretted', fret: 48, cents: 0, entered: '0'}],
		['an aim out of reach', {type: 'PegTurned', string: 1, untilCents: 5000}],
	])('refused: %s', (_, deed) => {
		const decision = benchAfter()(deed);
		expect(decision).toMatchObject({refused: 'out-of-range'});
		// What was read, what is allowed, an example.
		expect(!decision.ok && decision.said).toMatch(/: read .+; allowed is .+, for example .+\.$/);
	});
});

test('a string that the guitar does not have is refused with the count', () => {
	expect(benchAfter()(read(7, 0))).toMatchObject({
		refused: 'no-such-string',
		said: 'String 7: this guitar has 6 strings, counted from the thinnest. Say 1 to 6.',
	});
});

test('before the intake no string can be touched', () => {
	expect(decide([read(1, 0)], initialState)).toMatchObject({refused: 'no-sheet'});
});

test('one bad deed refuses the whole entry', () => {
	expect(benchAfter()(read(1, 0), saddle(1, 1), read(2, 0))).toMatchObject({ok: false, deed: saddle(1, 1)});
});

test('an empty note is refused', () => {
	expect(benchAfter()({type: 'NoteWritten', text: '  '})).toMatchObject({refused: 'empty-note'});
});

test('an impossible sheet is refused, and says which field', () => {
	expect(benchAfter()({type: 'SheetFilled', sheet: {...sheet, scaleLengthMm: 6.48}})).toMatchObject({
		refused: 'sheet',
		field: 'scaleLengthMm',
		said: 'Scale length: read 6.48 mm; allowed is 500 to 800 mm, for example 648.',
	});
});

describe('laws', () => {
	/** Deeds as a careless person would say them; the bench takes what it allows. */
	const careless = fc.array(anyDeed, {maxLength: 60});

	test('what is allowed keeps the bench in order', () => {
		fc.assert(
			fc.property(careless, deeds => {
				let state: SessionState = stateOf(journalOf(filled).story);
				for (const deed of deeds) {
					const before = state;
					if (!decide([deed], state).ok) continue;
					state = evolve(state, {...deed, at: 0, entry: 1});
					if (deed.type === 'SaddleMoved') expect(before.strings[deed.string].fitted).not.toBe('on');
					if (deed.type === 'PitchRead') expect(before.strings[deed.string].fitted).not.toBe('off');
					if (deed.type === 'PegTurned') expect(before.nut).toBe('open');
					if ('string' in deed) expect(deed.string).toBeLessThanOrEqual(state.sheet!.strings.length);
					expect(Math.abs(state.claw.meanTurns)).toBeLessThan(Number.POSITIVE_INFINITY);
				}
			}),
		);
	});

	test('a refusal is always a sentence, and the state is never changed by asking', () => {
		fc.assert(
			fc.property(anyDeed, careless, (deed, before) => {
				const state = stateOf(journalOf(...before).story);
				const copy = structuredClone(state);
				const decision = decide([deed], state);
				expect(state).toEqual(copy);
				if (!decision.ok) expect(decision.said).toMatch(/^[A-Z].*[.]$/s);
			}),
		);
	});

	test('a sheet that is allowed can always be turned into physics', () => {
		let allowed = 0;
		const plausible = anySheet.map(wild => ({...sheet, ...pick(wild)}));
		fc.assert(
			fc.property(fc.oneof(anySheet, plausible), wild => {
				if (!decide([{type: 'SheetFilled', sheet: wild}], initialState).ok) return;
				allowed++;
				const model = instrumentFrom(wild);
				for (const string of model.strings) {
					expect(string.targetHz).toBeGreaterThan(0);
					expect(string.speakingLengthM).toBeGreaterThan(0);
					expect(string.massPerLengthKgPerM).toBeGreaterThan(0);
				}
			}),
			{numRuns: 500},
		);
		expect(allowed).toBeGreaterThan(50);
	});
});

/** Some fields of a wild sheet, so that the rest can be allowed. */
function pick(wild: typeof sheet): Partial<typeof sheet> {
	return wild.springs > 0 ? {job: wild.job, units: wild.units} : {scaleLengthMm: wild.scaleLengthMm};
}
