import {springsRange} from '../planning/claw-limits.ts';

/**
 * What a number entered at the bench may be at most. Wide on purpose: they
 * catch a slip of the hand (648 for 6.48), not an unusual instrument. Common
 * practice, no source, where nothing else is said.
 */
export interface Limit {
	/** As the trade calls it, at the start of a sentence. */
	readonly name: string;
	readonly low: number;
	readonly high: number;
	/** Shown after the number; empty for a count. */
	readonly unit: string;
	readonly example: number;
	readonly isWhole?: true;
}

/** Numbers of the sheet that concern the whole instrument, by field. */
export const sheetLimits = {
	scaleLengthMm: {name: 'Scale length', low: 500, high: 800, unit: 'mm', example: 648},
	referenceAHz: {name: 'Reference A', low: 400, high: 480, unit: 'Hz', example: 440},
	springs: {
		name: 'Number of springs',
		low: springsRange[0],
		high: springsRange[1],
		unit: '',
		example: 3,
		isWhole: true,
	},
	clawScrewPitchMm: {name: 'Claw screw pitch', low: 0.3, high: 4, unit: 'mm per turn', example: 1.7},
	plateWishMm: {name: 'Tail height wanted', low: -8, high: 8, unit: 'mm', example: 0},
	tailArmMm: {name: 'Distance from knife edge to tail edge', low: 8, high: 120, unit: 'mm', example: 30},
	openToleranceCents: {name: 'Tolerance of open strings', low: 0.1, high: 20, unit: 'cents', example: 1},
	frettedToleranceCents: {name: 'Tolerance of fretted notes', low: 0.1, high: 20, unit: 'cents', example: 2},
	actionMm: {name: 'Action at the 12th fret', low: 0.3, high: 8, unit: 'mm', example: 1.6},
	nutHeightMm: {name: 'String height at the nut', low: 0, high: 3, unit: 'mm', example: 0.35},
} as const satisfies Readonly<Record<string, Limit>>;

/** Of `springArmMm`. */
export const springArm: Limit = {name: 'Knife edge to spring hooks', low: 20, high: 70, unit: 'mm', example: 40};

/** Of `springLengthsMm`: both, and by how much the first must be longer. */
export const springBody: Limit = {name: 'Coil body of a spring', low: 10, high: 200, unit: 'mm', example: 64};
export const springStretch: Limit = {name: 'Stretch of the springs', low: 1, high: 60, unit: 'mm', example: 17};

/** Each way, of `clawTurnsLeft`. */
export const clawTurnsLeft: Limit = {
	name: 'Turns left on the claw screws',
	low: 0,
	high: 40,
	unit: 'turns',
	example: 6,
};

/** Numbers of one string of the sheet, by field. */
export const stringLimits = {
	offsetCents: {name: 'Offset', low: -100, high: 100, unit: 'cents', example: -2},
	frettedOffsetCents: {name: 'Fretted offset', low: -50, high: 50, unit: 'cents', example: 1},
	actionMm: sheetLimits.actionMm,
	saddleMm: {name: 'Saddle position', low: -20, high: 30, unit: 'mm behind the scale line', example: 2.5},
} as const satisfies Readonly<Record<string, Limit>>;

export const plainGauge: Limit = {
	name: 'Gauge of a plain string',
	low: 5,
	high: 40,
	unit: 'thousandths of an inch',
	example: 10,
};
export const woundGauge: Limit = {
	name: 'Gauge of a wound string',
	low: 12,
	high: 120,
	unit: 'thousandths of an inch',
	example: 46,
};

/** Numbers of single facts. */
export const deedLimits = {
	/** Three octaves: beyond that it is not this string that sounded. */
	cents: {name: 'Reading', low: -3600, high: 3600, unit: 'cents', example: -12},
	heardSdCents: {name: 'Uncertainty of a heard pitch', low: 0, high: 100, unit: 'cents', example: 0.1},
	aimCents: {name: 'Aim', low: -3600, high: 3600, unit: 'cents', example: 23},
	fret: {name: 'Fret', low: 1, high: 36, unit: '', example: 12, isWhole: true},
	/** Both holes together are of the order of 10 mm. */
	travelMm: {name: 'Saddle travel', low: -20, high: 20, unit: 'mm', example: 1.5},
	positionMm: stringLimits.saddleMm,
	clawTurns: {name: 'Claw turns', low: -12, high: 12, unit: 'turns', example: 0.5},
	springs: sheetLimits.springs,
	tailMm: {name: 'Tail height', low: -25, high: 25, unit: 'mm', example: 0.8},
} as const satisfies Readonly<Record<string, Limit>>;

/** What was read, what is allowed and an example; undefined if the number is within. */
export function outside(limit: Limit, value: number): string | undefined {
	const isWithin = value >= limit.low && value <= limit.high && (!limit.isWhole || Number.isInteger(value));
	if (isWithin) return undefined;
	const unit = limit.unit === '' ? '' : ` ${limit.unit}`;
	const kind = limit.isWhole ? 'a whole number from ' : '';
	const allowed = `${kind}${limit.low} to ${limit.high}${unit}`;
	const read = Number.isFinite(value) ? `${value}${unit}` : 'no number';
	return `${limit.name}: read ${read}; allowed is ${allowed}, for example ${limit.example}.`;
}
