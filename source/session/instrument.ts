import type {InstrumentModel} from '../estimation/instrument-model.ts';

import {frequencyHz, hzFromCents} from '../music/pitch.ts';
import {harmonicAboveOctaveCents} from '../physics/fretted-note.ts';
import {stringConstantsOf} from '../physics/string-constants.ts';
import {axialStiffnessN, wireFrom} from '../physics/wire.ts';
import type {InstrumentSheet, StringSheet} from './sheet.ts';

/** Metres in a thousandth of an inch. */
const thouM = 25.4e-6;

/** Nut to peg, metres, when nobody measured it. Common practice, no source: 40 to 170 mm by string and head. */
const behindNutM = 0.1;

/** The sheet in the physics' terms. The sheet must have been checked (see decide). */
export function instrumentFrom(sheet: InstrumentSheet): InstrumentModel {
	return {
		springs: sheet.springs,
		tailArmM: sheet.tailArmMm / 1000,
		strings: sheet.strings.map(string => {
			const wire = wireOf(string);
			return {
				wound: string.wound,
				axialStiffnessN: axialStiffnessN(wire),
				massPerLengthKgPerM: wire.massPerLengthKgPerM,
				speakingLengthM: (sheet.scaleLengthMm + (string.saddleMm ?? 0)) / 1000,
				behindNutM,
				targetHz: targetHzOf(string, sheet.referenceAHz),
				breakingLoadN: wire.breakingLoadN,
			};
		}),
	};
}

/** The wire of one string of the sheet. */
export function wireOf(string: StringSheet) {
	return wireFrom({
		gaugeM: string.gaugeThou * thouM,
		wound: string.wound,
		...(string.coreThou === undefined ? {} : {coreM: string.coreThou * thouM}),
	});
}

/**
 * How far a string's 12th-fret harmonic lies above the octave of its open
 * pitch, cents: stiff wire's second mode is sharp, a plain third's by a
 * quarter of a cent. See `harmonicAboveOctaveCents`.
 */
export function harmonicAboveOpenCents(string: StringSheet, {scaleLengthMm, referenceAHz}: InstrumentSheet): number {
	const setting = {frequencyHz: targetHzOf(string, referenceAHz), scaleLengthM: scaleLengthMm / 1000};
	return harmonicAboveOctaveCents(stringConstantsOf(wireOf(string), setting).openStiffness);
}

/** Wanted open pitch in hertz, offset included. */
export function targetHzOf(string: StringSheet, referenceAHz: number): number {
	return hzFromCents(string.offsetCents ?? 0, frequencyHz(string.note, referenceAHz));
}
