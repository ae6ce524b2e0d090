import {describe, expect, test} from 'vitest';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import {IntonationBench} from '../helpers/intonation-bench.ts';

/** Read, moved as told and brought up again: string 3 was 6 cents sharp. */
function movedOnce(report = ''): IntonationBench {
	const person = new IntonationBench(3);
	person.type('0 0');
	person.type('+6 +6.2');
	// Slack, then the saddle.
	person.type('');
	person.type(report);
	person.bringUp();
	return person;
}

describe('a sound guitar', () => {
	test('reads, moves once, proves, and says that it is close enough', () => {
		const person = new IntonationBench(3);
		expect(person.asked).toMatch(/Wanted at this place: 2 plucks of each kind/);
		person.type('0 0');
		person.type('+6 +6.2');
		expect(person.asked).toMatch(/^Slacken string 3 .*\n.*do not chase them/);
		person.type('');
		// About 0.37 mm per cent on a 648 mm scale: common practice, no source.
		expect(person.task.headline).toBe('Move the saddle of string 3 (G3) 2.17 mm back, away from the neck.');
		expect(person.asked).toMatch(
			/Read: harmonic 0\.0 ±0\.1 \(\d+ plucks\), fretted \+6\.1 ±0\.2 \(2 plucks\); error \+5\.8/,
		);
		expect(person.asked).toMatch(/Expected afterwards: 0\.0 ±1\.\d cents/);
		expect(person.asked).toMatch(/Meanwhile string \d .* stands at \+\d+.* it will return: do not chase it/);
		person.type('');
		person.sound('0 0.1', '+0.3 0.1');
		expect(person.task.headline).toBe('Every string is intonated. Go on.');
		expect(person.asked).toMatch(/String 3: .* within tolerance and within what the tuner tells/);
	});
});

describe('a saddle that creeps', () => {
	test('still sharp when pressed lightly: it is named, and told to be tightened before the next move', () => {
		const person = movedOnce();
		person.sound('0 0.1', '+4.1 +4.9');
		expect(person.task.headline).toMatch(/^Press string 3 \(G3\) lightly/);
		expect(person.asked).toMatch(/perhaps the saddle crept towards the neck; tighten its screw/);
		expect(person.asked).toMatch(/Flatter and alike now: it was bent\. As sharp as before: saddle or screw/);
		// Lightly, and as often as more plucks are wanted.
		for (let times = 0; times < 4 && !person.task.headline.startsWith('Slacken'); times++)
			person.sound('0 0.1', '4.4 4.5');
		expect(person.task.headline).toMatch(/^Slacken string 3/);
		expect(person.asked).toMatch(
			/fits the readings best: the saddle crept towards the neck; tighten its screw \((9\d|100) %/,
		);
	});

	test('further off, a ruler is asked for and settles it', () => {
		const person = movedOnce();
		person.sound('0 0.1', '+9 +9.1');
		person.sound('0 0', '9 9');
		expect(person.task.headline).toBe('Measure how far the saddle of string 3 (G3) stands behind the scale line.');
		expect(person.asked).toMatch(/Forward of where it was set: it crept/);
		expect(person.type('1.0').kind).toBe('deeds');
		expect(person.asked).not.toMatch(/Measure how far/);
	});
});

test('a string that slips: the harmonic tells, then it is brought back to pitch before the saddle is judged', () => {
	const person = movedOnce();
	person.sound('0 0.1', '-9 -9.1');
	expect(person.task.headline).toBe('Sound the 12th-fret harmonic of string 3 (G3) once more.');
	expect(person.asked).toMatch(/perhaps the string slipped between two readings/);
	expect(person.asked).toMatch(/Flatter than before: the string slipped/);
	person.type('-9 -9');
	expect(person.task.headline).toMatch(/^Turn string 3 \(G3\) up until your tuner shows/);
	person.sound('0 0', '0.2 0');
	expect(person.task.headline).toBe('Every string is intonated. Go on.');
});

test('a bent note: sharp and scattered; pressed lightly it is right, and the saddle stays', () => {
	const person = movedOnce();
	person.sound('0 0.1', '+7 +3 +9');
	expect(person.asked).toMatch(/perhaps the string was bent sideways or pressed hard/);
	expect(person.asked).toMatch(/fretted \+6\.3 ±5\.0 \(3 plucks\)/);
	// The check is there to read otherwise: no question, though 9 was read a moment ago.
	expect(person.type('+0.5 +0.2').kind).toBe('deeds');
	expect(person.task.headline).toBe('Every string is intonated. Go on.');
	expect(person.bench.story.filter(({type}) => type === 'SaddleMoved')).toHaveLength(1);
});

describe('the other way', () => {
	test('reported: it is questioned before it is believed', () => {
		const person = new IntonationBench(3);
		person.type('0 0');
		person.type('+6 +6.2');
		person.type('');
		expect(person.type('2.2 forward')).toMatchObject({
			kind: 'question',
			said: expect.stringMatching(/Asked for 2\.17 mm back, read 2\.20 mm forward, the other way/),
			deedsIfMeant: [{type: 'SaddleMoved', string: 3, travelMm: -2.2}],
		});
		expect(person.type('2 back').kind).toBe('deeds');
	});

	test('not reported: twice as sharp as before names it, and a ruler tells', () => {
		const person = movedOnce();
		person.sound('0 0.1', '+12 +12.1');
		expect(person.asked).toMatch(/perhaps the saddle went the other way/);
		expect(person.task.headline).toMatch(/^Measure how far the saddle of string 3/);
	});
});

describe('out of travel', () => {
	const strings = defaultSheet().strings.map(row => ({...row, saddleRangeMm: [-1, 4.5] as const}));

	test('said before the string is slackened, with what the end leaves and what else helps', () => {
		const person = new IntonationBench(6, {strings});
		person.type('0 0 0');
		person.type('+14 +14.2 14.1');
		// Where it stands decides; so it is measured first.
		for (let plucks = 0; !/^(Measure|Slacken)/.test(person.task.headline); plucks++) {
			expect(plucks, person.task.headline).toBeLessThan(10);
			person.type(/harmonic/.test(person.task.headline) ? '0' : '14');
		}

		if (/^Measure/.test(person.task.headline)) person.type('1.2');
		expect(person.task.headline).toMatch(/^Slacken string 6/);
		expect(person.asked).toMatch(/the end of its travel, the best to be had here/);
		expect(person.asked).toMatch(
			/5\.\d+ mm back wanted, to the back end there is 3\.\d+ mm back; that leaves \+5\.\d ±\d\.\d cents/,
		);
		expect(person.asked).toMatch(/No usual gauge or action mends it/);
		person.type('');
		person.type('');
		person.sound('0 0', '+4.5 4.6');
		expect(person.task.headline).toBe('All that the saddles can do is done; string 6 out of tolerance. Go on.');
		expect(person.asked).toMatch(/it stands at its back end; that leaves \+4\.\d/);
	});

	test('where a lighter or heavier string or the action would do, it says which', () => {
		const person = new IntonationBench(3, {
			strings: strings.map(row => ({...row, saddleMm: 1.7, saddleRangeMm: [0, 2] as const})),
			frettedToleranceCents: 1,
		});
		person.type('0 0 0');
		person.type('+2.2 +2.3 2.1');
		for (let steps = 0; !/^Slacken|intonated|done/.test(person.task.headline) && steps < 8; steps++) {
			person.type(/^Measure/.test(person.task.headline) ? '1.7' : /harmonic/.test(person.task.headline) ? '0' : '2.2');
		}
		expect(person.asked).toMatch(/What else helps: action \d\.\d+ mm lower; gauge \.\d+ leaves [+−]\d\.\d\./);
	});
});

describe('on a support', () => {
	test('the plucks before tell how it holds; the string goes to its aim; proved once it is out', () => {
		const person = new IntonationBench(3, {}, 'blocked');
		person.type('0 0');
		person.type('+6 +6.2');
		expect(person.asked).toMatch(/^Put support.*\n.*held elsewhere, readings are void/);
		person.type('');
		expect(person.task.headline).toBe('Pluck string 3 (G3), do not turn it.');
		person.type('0');
		person.type('0');
		expect(person.asked).toMatch(/holds the bridge where it floats, as far as two strings tell/);
		person.type('');
		expect(person.asked).toMatch(/The support holds the others/);
		person.type('');
		const {act} = person.task;
		if (act?.kind !== 'turn') throw new Error(`expected a turn, got: ${person.task.headline}`);
		// A saddle 2 mm back asks for a little more tension than before, which the bridge gives way to: under a cent or two.
		expect(act.toCents).toBeGreaterThan(0);
		expect(act.toCents).toBeLessThan(3);
		person.type('-8');
		expect(person.task.headline).toMatch(/^Turn string 3/);
		person.type(act.toCents.toFixed(1));
		expect(person.task.headline).toBe('Take the support out from under the bridge.');
	});

	test.each([
		['-4', '-3', /lifts the tail/],
		['4', '3', /lets the tail down/],
	])('plucks at %s and %s say that it does not hold where it floats', (third, sixth, said) => {
		const person = new IntonationBench(3, {}, 'blocked');
		person.type('0 0');
		person.type('+6 +6.2');
		person.type('');
		for (const text of [third, sixth]) {
			if (person.type(text).kind === 'question') person.type(`${text}!`);
		}
		expect(person.asked).toMatch(said);
	});
});

describe('on request', () => {
	test('other frets: one fret that alone is off is no saddle error', () => {
		const person = new IntonationBench(3);
		person.press('m');
		person.type('0 0');
		for (const cents of ['0 0.1', '-0.2 0', '+7 7.2', '-0.5 -0.3']) person.type(cents);
		expect(person.bench.story.filter(fact => fact.type === 'PitchRead' && fact.fret === 17)).toHaveLength(2);
		expect(person.task.headline).toMatch(/^No saddle mends this alone: fret 17 is worn, lifted or misplaced/);
		expect(person.asked).toMatch(/Against the harmonic: fret 5 \+0\.1, fret 12 .*fret 17 \+7\.1/);
		expect(person.type('fret 30: 2').kind).toBe('refused');
		expect(person.type('fret 9: +0.3').kind).toBe('deeds');
		person.type('4:');
		expect(person.task.headline).toMatch(/harmonic of string 4/);
		person.type('');
		expect(person.task.headline).toBe('Every string is intonated. Go on.');
	});

	test('an offset wanted of one string is what its saddle is set to', () => {
		const person = new IntonationBench(6);
		person.press('w');
		expect(person.type('6: -2').kind).toBe('deeds');
		expect(person.asked).toMatch(/string 6 \(E2\): wanted at −2\.0 cents/);
		person.type('6: travel -1 to 6');
		expect(person.bench.sheet.strings[5]).toMatchObject({frettedOffsetCents: -2, saddleRangeMm: [-1, 6]});
		expect(person.type('6: travel 3 to 1').kind).toBe('refused');
		expect(person.type('later').kind).toBe('refused');
		person.type('');
		person.type('0 0 0');
		person.type('-2 -2.1 -1.9');
		expect(person.task.headline).toBe('Every string is intonated. Go on.');
		expect(person.task.why).toMatch(/of the wished −2\.0\..*No string needed its saddle moved\./);
	});
});
