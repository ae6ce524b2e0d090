import {frettedCentsAt, type SaddleModel, saddleModelOf} from '../estimation/saddle-model.ts';
import {type Wire, wireFrom} from '../physics/wire.ts';

/** What else would bring a string whose saddle has run out of travel to its wish. */
export interface SaddleCompromise {
	/** Error left at the end of the travel, cents. */
	readonly leftCents: number;
	/** Change of the action over the 12th fret that would take it away, mm, positive = higher; undefined beyond ±1 mm. */
	readonly actionMm?: number;
	/** Gauges that would leave less, with what they leave at the same place, best first; at most two. */
	readonly gauges: readonly {readonly gaugeM: number; readonly leftCents: number}[];
}

const inchM = 0.0254;

/** Gauges tried around the present one, in thousandths of an inch: a packet's usual steps. */
const gaugeSteps = {plain: [-3, -2, -1, 1, 2, 3], wound: [-8, -6, -4, -2, 2, 4, 6, 8]} as const;

/**
 * The model's answer to "the end of the travel leaves so many cents; what then?"
 *
 * @param leftCents Departure from the wish with the saddle at its end, cents.
 * @param endMm That end, mm behind the scale line.
 */
export function compromiseFor(model: SaddleModel, leftCents: number, endMm: number): SaddleCompromise {
	const actionMm = actionChangeMm(model, leftCents, endMm);
	const base = frettedCentsAt(model, endMm);
	const steps = model.wire.wound ? gaugeSteps.wound : gaugeSteps.plain;
	const gauges = steps
		.map(step => model.wire.outerDiameterM + step * 0.001 * inchM)
		.filter(gaugeM => gaugeM > 0.006 * inchM)
		.map(gaugeM => ({
			gaugeM,
			leftCents: leftCents + frettedCentsAt(withWire(model, otherGauge(model.wire, gaugeM)), endMm) - base,
		}))
		.filter(choice => Math.abs(choice.leftCents) < Math.abs(leftCents))
		.sort((one, other) => Math.abs(one.leftCents) - Math.abs(other.leftCents))
		.slice(0, 2);
	return {leftCents, ...(Math.abs(actionMm) <= 1 ? {actionMm} : {}), gauges};
}

function actionChangeMm(model: SaddleModel, leftCents: number, endMm: number): number {
	const at = (changeMm: number) => frettedCentsAt(withAction(model, changeMm), endMm);
	const base = at(0);
	let changeMm = 0;
	for (let round = 0; round < 6; round++) {
		const slope = (at(changeMm + 0.02) - at(changeMm - 0.02)) / 0.04;
		// Below some action a string would lie on the frets; the curve turns flat there and the answer is of no use.
		if (slope < 1e-3) return Number.NEGATIVE_INFINITY;
		changeMm -= (at(changeMm) - base + leftCents) / slope;
		if (Math.abs(changeMm) > 3) return Math.sign(changeMm) * Number.POSITIVE_INFINITY;
	}
	return changeMm;
}

/** A change of action at the 12th fret, made at the saddle: twice as much there. */
function withAction(model: SaddleModel, changeMm: number): SaddleModel {
	const {path} = model;
	return {...model, path: {...path, saddleHeightM: path.saddleHeightM + (2 * changeMm) / 1000}};
}

function withWire(model: SaddleModel, wire: Wire): SaddleModel {
	const {frequencyHz, path, string} = model;
	const {scaleLengthM, nutHeightM, saddleHeightM} = path;
	const other = saddleModelOf({
		wire,
		frequencyHz,
		scaleLengthM,
		nutHeightM,
		actionM: nutHeightM + saddleHeightM / 2,
		...(string.giveShare === undefined ? {} : {giveShare: string.giveShare}),
	});
	return {...other, path};
}

/** The same kind of string in another gauge; a core keeps its share of the wound one. */
function otherGauge(wire: Wire, gaugeM: number): Wire {
	const coreM = (wire.coreDiameterM / wire.outerDiameterM) * gaugeM;
	return wireFrom({gaugeM, wound: wire.wound, ...(wire.wound ? {coreM} : {})});
}
