import {type Guitar, type GuitarString, stringAt, withString} from './guitar.ts';
import {settled} from './rest.ts';
import {tensionsN} from './sound.ts';

/**
 * What being worked on does to strings: they stretch in. Each deed lets out a
 * share 1 − exp(−rate × tension / usual tension) of what is left, so a new
 * string gives much at first and little later; within one sitting time alone
 * does nothing, a whole day does. The rates are judgement: retuning and
 * pulling by hand settle a string within a few rounds, plucking alone would
 * take dozens.
 */
const soonRates = {turn: 0.3, pluck: 0.03, pull: 0.8, arm: 0.1, day: 0.3, otherwise: 0.01} as const;
const lateRatio = 0.15;
export type Deed = keyof typeof soonRates;

/** Strings have given what this deed lets out: `deed` for the one that is handled, a little for all others. The bridge has not moved yet. */
export function given(guitar: Guitar, string: number | 'all', deed: Deed): Guitar {
	const tensions = tensionsN(guitar);
	const strings = guitar.strings.map((each, index) => {
		const rate = soonRates[string === 'all' || string === index ? deed : 'otherwise'];
		return lengthened(guitar, each, rate * shareOfUsual(guitar, index, tensions[index]!));
	});
	return {...guitar, strings};
}

/** A loose saddle creeps forward while its string is tight. */
export function crept(guitar: Guitar, string: number): Guitar {
	const {creepM, saddleM} = stringAt(guitar, string);
	if (creepM === 0 || tensionsN(guitar)[string] === 0) return guitar;
	const stepM = 0.6 * creepM;
	return settled(withString(guitar, string, {saddleM: saddleM - stepM, creepM: creepM - stepM}));
}

/** A string that does not hold slips at a hard pull. */
export function slipped(guitar: Guitar, string: number | 'all'): Guitar {
	const strings = guitar.strings.map((each, index) =>
		each.slipM > 0 && (string === 'all' || string === index)
			? {...each, frontM: each.frontM + each.slipM, slipM: each.slipM / 2}
			: each,
	);
	return {...guitar, strings};
}

function lengthened({nut}: Guitar, string: GuitarString, rate: number): GuitarString {
	const {give, frontM, behindM} = string;
	if (!string.on || rate === 0) return string;
	const soonM = give.soonM * Math.exp(-rate);
	const lateM = give.lateM * Math.exp(-rate * lateRatio);
	const outM = give.soonM - soonM + give.lateM - lateM;
	// All along the wire alike; behind a clamped nut there is little pull, and the peg's windings no longer matter.
	const frontShare = frontM / (frontM + behindM);
	const behindOutM = nut === 'locked' ? 0 : outM * (1 - frontShare);
	return {...string, give: {soonM, lateM}, frontM: frontM + outM * frontShare, behindM: behindM + behindOutM};
}

function shareOfUsual(guitar: Guitar, string: number, tensionN: number): number {
	const {wire} = stringAt(guitar, string);
	const usualN = wire.massKgPerM * (2 * guitar.spec.scaleLengthM * guitar.spec.strings[string]!.targetHz) ** 2;
	return Math.min(2, tensionN / usualN);
}
