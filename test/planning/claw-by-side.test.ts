import {describe, expect, test} from 'vitest';
import {clawBySide, type SideMeasure} from '../../source/planning/claw-by-side.ts';

const perTurnM = 0.0014;
const at = (trebleMm: number, bassMm: number, differenceTurns = 0): SideMeasure => ({
	trebleM: trebleMm / 1000,
	bassM: bassMm / 1000,
	differenceTurns,
});

test('without a twist both screws get the same, to an eighth', () => {
	expect(clawBySide(0.68, perTurnM, [])).toMatchObject({trebleTurns: 0.625, bassTurns: 0.625, twist: 'alike'});
	expect(clawBySide(0.68, perTurnM, [at(1, 0.9)])).toMatchObject({trebleTurns: 0.625, bassTurns: 0.625});
});

test('the higher side gets more, and the mean stays', () => {
	const {trebleTurns, bassTurns, twist} = clawBySide(0.5, perTurnM, [at(1.2, 0.2)]);
	expect(twist).toBe('unequal');
	expect(trebleTurns).toBeGreaterThan(bassTurns);
	expect((trebleTurns + bassTurns) / 2).toBe(0.5);
	const mirrored = clawBySide(0.5, perTurnM, [at(0.2, 1.2)]);
	expect(mirrored).toMatchObject({trebleTurns: bassTurns, bassTurns: trebleTurns});
});

test('the first difference is felt out in a small step', () => {
	const {trebleTurns, bassTurns} = clawBySide(0, perTurnM, [at(2, -2)]);
	expect(trebleTurns - bassTurns).toBeLessThanOrEqual(0.5);
});

test('a plate that gives way is brought home by its own answer', () => {
	// Half a turn of difference took away 0.4 of 1.0 mm: 0.8 mm a turn, so 0.75 turn for the rest; at most half at once.
	const plan = clawBySide(0, perTurnM, [at(0.5, -0.5), at(0.3, -0.3, 0.5)]);
	expect(plan.trebleTurns - plan.bassTurns).toBe(0.5);
	// 0.28 mm left asks for 0.35: two eighths.
	const last = clawBySide(0, perTurnM, [at(0.5, -0.5), at(0.14, -0.14, 0.9)]);
	expect(last.trebleTurns - last.bassTurns).toBe(0.25);
});

test('a plate that does not answer is not the claw’s doing: the screws are set alike again', () => {
	const plan = clawBySide(0, perTurnM, [at(0.5, -0.5), at(0.49, -0.49, 0.5)]);
	expect(plan).toEqual({
		trebleTurns: -0.25,
		bassTurns: 0.25,
		twist: 'not-the-claw',
		twistM: expect.closeTo(0.00098, 9),
	});
});

describe('steps', () => {
	test.each([0.06, -0.31, 1.99, 2.44])('mean turns of %d come out in eighths for both', turns => {
		for (const sides of [[], [at(1, 0.4)], [at(0, 1.1)]]) {
			const {trebleTurns, bassTurns} = clawBySide(turns, perTurnM, sides);
			expect(Number.isInteger(trebleTurns * 8)).toBe(true);
			expect(Number.isInteger(bassTurns * 8)).toBe(true);
		}
	});
});
