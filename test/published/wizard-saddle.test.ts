import {expect, test} from 'vitest';
import {frettedCentsAt, fretErrorCentsAt, saddleMmFor, slopeCentsPerMm} from '../../source/estimation/saddle-model.ts';
import {harmonicAboveOctaveCents} from '../../source/physics/fretted-note.ts';
import {saddleSlopeCentsPerM} from '../../source/physics/saddle-move.ts';
import {openStiffness} from '../../source/physics/string-constants.ts';
import {benchOf} from '../../source/session/bench-of.ts';
import {beliefOf} from '../../source/session/belief-of.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import {saddleModelFor} from '../../source/session/saddles.ts';
import {journalOf, opened, read} from '../helpers/deeds.ts';
import {nylonBoard, nylonSet} from './nylon-set.ts';

// The published values are checked on the functions in physics/; here, that what the wizard asks for comes from these.

const sheet = defaultSheet();
const {story} = journalOf({type: 'SheetFilled', sheet}, opened);
const model = saddleModelFor(sheet, beliefOf(story, sheet), 3);

/** The wizard's model with a printed string and board in it (Anderson and Beausoleil 2024, see nylon-set.ts). */
const printed = nylonSet.map(row => ({
	...row,
	model: {
		...model,
		path: {...nylonBoard, saddleSetbackM: 0, nutSetbackM: row.nutMm / 1000},
		string: {
			stringConstant: row.stringConstant,
			openStiffness: openStiffness({
				stringConstant: row.stringConstant,
				radiusM: row.radiusMm / 1000,
				scaleLengthM: nylonBoard.scaleLengthM,
			}),
		},
	},
}));

test.each(printed)('$note: the wizard’s fret errors leave the printed $rmsCents cents at the printed setbacks', row => {
	const errors = Array.from({length: 12}, (_, index) => {
		const harmonic = harmonicAboveOctaveCents(row.model.string.openStiffness);
		return fretErrorCentsAt(row.model, index + 1, row.saddleMm) + harmonic;
	});
	const rmsCents = Math.sqrt(errors.reduce((sum, error) => sum + error ** 2, 0) / 12);
	// Setbacks printed to .01 mm (half a digit is .013 cent at the 12th fret), and 3 to 4 % above the printed column (README).
	expect(Math.abs(rmsCents - row.rmsCents)).toBeLessThan(0.05 * row.rmsCents + 0.013);
});

test('the slope that the wizard moves by is that of the full model, about 1 mm for 2.7 cents on 648 mm', () => {
	const slope = slopeCentsPerMm(model, 2);
	const path = {...model.path, saddleSetbackM: 0.002};
	expect(slope).toBeCloseTo(saddleSlopeCentsPerM(path, model.string) / 1000, 3);
	// 0.37 mm per cent: common practice, no source.
	expect(Math.abs(1 / slope + 0.37)).toBeLessThan(0.01);
});

test('where the wizard would put a saddle, its fretted 12th agrees with the harmonic', () => {
	expect(frettedCentsAt(model, saddleMmFor(model, 0))).toBeCloseTo(0, 6);
});

test('fretted sharp is answered by a move back, flat by a move forward', () => {
	// Common practice, no source.
	const moveFor = (cents: number) => {
		const reads = [read(3, 0, 'harmonic'), read(3, cents, 'fretted')];
		return benchOf(journalOf({type: 'SheetFilled', sheet}, opened, ...reads).story).strings[2]!.saddleMoveMm!.mean;
	};
	expect(moveFor(6)).toBeGreaterThan(1);
	expect(moveFor(-6)).toBeLessThan(-1);
});
