import {describe, expect, test} from 'vitest';
import {askedPitch} from '../../../source/shell/ears/asked-pitch.ts';
import {seenBy} from '../../../source/shell/seen.ts';
import type {Sitting} from '../../../source/shell/state.ts';
import {storeDeeds} from '../../../source/shell/store-deeds.ts';
import {askingPitch, earPorts, hzOf, pluckAt, told} from '../../helpers/ears.ts';
import {hearing} from '../../helpers/hearing.ts';

const saddlePorts = earPorts();
const ports = {...saddlePorts, firstSheet: () => ({...saddlePorts.firstSheet(), job: 'intonation' as const})};
const harmonic = hearing.harmonicOf(told(askingPitch(ports), ports, 'tab', {kind: 'open', from: 'parec'}), ports);
const string = 5;
const lastOf = (sitting: Sitting) => sitting.journal.story.at(-1);
const askedIn = (sitting: Sitting) => askedPitch(seenBy(sitting, ports), sitting.entry);
const fretHz = (fret: number, cents = 0) => hzOf(string, 100 * fret + cents);

/** String 5 looked at over its frets, up to the one named, each sounded a cent sharp. */
function askingFret(fret: number, twelfthCents = 1): Sitting {
	let now = storeDeeds(harmonic, [{type: 'WayChosen', choice: 'intonation aside', value: `frets of ${string}`}], ports);
	for (let asked = askedIn(now); asked?.fret !== fret; asked = askedIn(now)) {
		if (!asked) throw new RangeError(`askingFret: fret ${fret} was never asked for`);
		now = told(now, ports, pluckAt(fretHz(asked.fret ?? 12, asked.fret === 12 ? twelfthCents : 1)));
		if (now.asking) now = told(now, ports, 'enter');
	}
	return now;
}

describe.each([5, 17, 19])('at fret %i by ear', fret => {
	const asking = askingFret(fret);

	test('the note is asked for there and stored as that fret’s', () => {
		expect(askedIn(asking)).toEqual({string, how: 'fretted', fret});
		const heard = told(asking, ports, pluckAt(fretHz(fret, 2)));
		expect(lastOf(heard)).toMatchObject({type: 'PitchRead', how: 'fretted', fret, string, cents: 2});
		expect(heard.ear?.note).toContain(`string ${string} at fret ${fret}: +2.0`);
	});

	test('the octave above the open string is told for what it is, and what to do instead', () => {
		const octave = told(asking, ports, pluckAt(fretHz(12)));
		expect(octave.journal).toBe(asking.journal);
		expect(octave.ear?.note).toContain(`press string ${string} at fret ${fret}`);
		expect(octave.ear?.note).toMatch(/octave (above|up)/);
		expect(octave.ear?.note).not.toContain('pluck it open');
	});

	test('the open string is told for what it is, and which fret is meant', () => {
		const open = told(asking, ports, pluckAt(fretHz(0)));
		expect(open.journal).toBe(asking.journal);
		expect(open.ear?.note).toMatch(
			new RegExp(`^that (was|fits) string ${string} open: press string ${string} at fret ${fret}$`),
		);
	});

	test('the note of the fret beside it is a question that says which fret fits', () => {
		const beside = told(asking, ports, pluckAt(fretHz(fret - 1)));
		expect(beside.asking).toMatchObject({by: 'ear', choices: [{string}]});
		expect(beside.message?.text).toContain(`at fret ${fret} at −100.0`);
		expect(beside.message?.text).toContain(`fits fret ${fret - 1}`);
	});
});

describe('what a fret is expected to show', () => {
	const expectedAt = (sitting: Sitting, fret: number) =>
		seenBy(sitting, ports).bench.expectReading(string, 'fretted', fret);

	test('is not known before the string was read at the 12th fret', () => {
		expect(expectedAt(askingFret(5), 5)).toBeUndefined();
	});

	test('follows the 12th, and is said beside a reading that surprises', () => {
		// Sharp at the 12th by 20: all frets are sharp, and by how much is another matter at each.
		const sharp = askingFret(17, 20);
		const {mean} = expectedAt(sharp, 17)!;
		expect(mean).toBeGreaterThan(12);
		expect(mean).not.toBe(expectedAt(sharp, 12)!.mean);
		const off = told(sharp, ports, pluckAt(fretHz(17, mean + 60)));
		expect(off.asking?.by).toBe('ear');
		expect(off.message?.text).toMatch(/at fret 17 at \+\d+\.\d ±0\.2, expected \+\d/);
	});

	test('a note as far out as the 12th foretells is taken without a question', () => {
		const sharp = askingFret(17, 35);
		const heard = told(sharp, ports, pluckAt(fretHz(17, expectedAt(sharp, 17)!.mean + 2)));
		expect(heard.asking).toBeUndefined();
		expect(lastOf(heard)).toMatchObject({how: 'fretted', fret: 17});
	});
});
