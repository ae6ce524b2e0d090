import type {GuitarSpec, StringSpec} from './guitar.ts';

/** Invented instruments with common gauges and tunings, for benchmarks and practice: no particular make is meant. */
export interface Ensemble {
	readonly name: string;
	readonly spec: GuitarSpec;
}

const inchM = 0.0254;

/** Gauges in thousandths of an inch, thinnest first, `w` after a wound one; targets as semitones above C−1 (A4 = 69). */
function set(gauges: string, midi: readonly number[]): readonly StringSpec[] {
	return gauges.split(' ').map((gauge, index) => ({
		targetHz: 440 * 2 ** ((midi[index]! - 69) / 12),
		gaugeM: (Number.parseFloat(gauge) / 1000) * inchM,
		wound: gauge.endsWith('w'),
	}));
}

function instrument(name: string, strings: readonly StringSpec[], scaleLengthM: number, springs: number): Ensemble {
	return {
		name,
		spec: {
			strings,
			scaleLengthM,
			springs,
			clawScrewPitchM: 1.7e-3,
			tailArmM: 0.035,
			actionM: 1.6e-3,
			nutHeightM: 0.35e-3,
		},
	};
}

const standard = [64, 59, 55, 50, 45, 40] as const;
const lowered = (midi: readonly number[], semitones: number): readonly number[] => midi.map(note => note - semitones);

export const nines = instrument('nines, 648 mm', set('9 11 16 24w 32w 42w', standard), 0.648, 3);
export const tens = instrument('tens, 648 mm', set('10 13 17 26w 36w 46w', standard), 0.648, 3);
export const shortTens = instrument(
	'tens a half-step down, 629 mm',
	set('10 13 17 26w 36w 46w', lowered(standard, 1)),
	0.629,
	3,
);
export const heavyDrop = instrument(
	'11 to 56, C G C F A D',
	set('11 14 18 30w 42w 56w', [62, 57, 53, 48, 43, 36]),
	0.648,
	4,
);
export const sevens = instrument(
	'seven strings, 10 to 59, 648 mm',
	set('10 13 17 26w 36w 46w 59w', [...standard, 35]),
	0.648,
	4,
);
export const eights = instrument(
	'eight strings, 9 to 74, 686 mm',
	set('9 12 16 24w 34w 44w 56w 74w', [...standard, 35, 30]),
	0.686,
	4,
);

export const ensembles: readonly Ensemble[] = [nines, tens, shortTens, heavyDrop, sevens, eights];
