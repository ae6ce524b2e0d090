import {type Guitar, stringAt} from './guitar.ts';
import {tailM} from './read.ts';
import {openCents, soundCents, tensionsN} from './sound.ts';
import {turnedByHand} from './work.ts';

/** What is hidden from the person and the tool: for tests and benchmarks only. */
export interface Truth {
	/** Open pitch against target; undefined when off or slack. */
	readonly cents: readonly (number | undefined)[];
	/** Tail above level, positive = high. */
	readonly tailM: number;
	/** Fretted 12th minus 12th-fret harmonic, pressed evenly. */
	readonly fretted12ErrorCents: readonly (number | undefined)[];
	readonly tensionN: readonly number[];
	readonly breakN: readonly number[];
	/** Behind the scale line. */
	readonly saddleM: readonly number[];
	/** Share of the fine tuner's travel that still sharpens, 0 to 1. */
	readonly fineTunerLeft: readonly number[];
	/** What the strings still have to give. */
	readonly giveM: readonly number[];
	/** Turns left on the claw screws until they stop, [out, in], the worse of the two screws. */
	readonly clawLeftTurns: readonly [number, number];
}

export function truth(guitar: Guitar): Truth {
	const {strings, body, claw} = guitar;
	const {trebleTurns, bassTurns} = claw;
	return {
		cents: strings.map((_, index) => openCents(guitar, index)),
		tailM: tailM(guitar),
		fretted12ErrorCents: strings.map((_, index) => frettedErrorCents(guitar, index)),
		tensionN: tensionsN(guitar),
		breakN: strings.map(({wire}) => wire.breakN),
		saddleM: strings.map(({saddleM}) => saddleM),
		fineTunerLeft: strings.map(({fineTunerM, seat}) => 1 - fineTunerM / seat.fineTunerTravelM),
		giveM: strings.map(({give}) => give.soonM + give.lateM),
		clawLeftTurns: [
			Math.min(trebleTurns, bassTurns) - body.clawRangeTurns[0],
			body.clawRangeTurns[1] - Math.max(trebleTurns, bassTurns),
		],
	};
}

/** Fretted note minus harmonic (12th) or minus the fret's equal-tempered place above the open string. */
export function frettedErrorCents(guitar: Guitar, string: number, fret = 12): number | undefined {
	const fretted = soundCents(guitar, string, {how: 'fretted', fret});
	const reference = soundCents(guitar, string, {how: fret === 12 ? 'harmonic' : 'open'});
	return fretted === undefined || reference === undefined ? undefined : fretted - reference;
}

/**
 * Cents by which every string moves when this one is turned exactly to a
 * pitch: friction included, hand, tuner and stretching-in left out.
 * Undefined for a string that does not sound before and after.
 */
export function trueMoves(guitar: Guitar, string: number, toCents: number): readonly (number | undefined)[] {
	stringAt(guitar, string);
	const by = guitar.nut === 'open' ? 'peg' : 'fine-tuner';
	const after = turnedByHand(guitar, string, toCents, by).guitar;
	return guitar.strings.map((_, index) => {
		const [from, to] = [openCents(guitar, index), openCents(after, index)];
		return from === undefined || to === undefined ? undefined : to - from;
	});
}
