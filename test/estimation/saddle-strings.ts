import type {SaddleHappening} from '../../source/estimation/saddle-history.ts';
import {type SaddleModel, type SaddleSetting, saddleModelOf} from '../../source/estimation/saddle-model.ts';
import {wireFrom} from '../../source/physics/wire.ts';

const inchM = 0.0254;

/** A plain third of .016 in, or with something about it changed. */
export function plainThird(change: Partial<SaddleSetting> = {}): SaddleModel {
	return saddleModelOf({
		wire: wireFrom({gaugeM: 0.016 * inchM, wound: false}),
		frequencyHz: 195.998,
		scaleLengthM: 0.648,
		actionM: 1.6e-3,
		nutHeightM: 0.35e-3,
		giveShare: 0.2,
		...change,
	});
}

/** Histories in few words. */
export const harmonic = (cents: number): SaddleHappening => ({kind: 'read', how: 'harmonic', cents});
export const open = (cents: number): SaddleHappening => ({kind: 'read', how: 'open', cents});
export const fretted = (cents: number): SaddleHappening => ({kind: 'read', how: 'fretted', cents});
export const moved = (travelMm: number): SaddleHappening => ({kind: 'moved', travelMm});
export const measured = (positionMm: number): SaddleHappening => ({kind: 'measured', positionMm});
export const touched: SaddleHappening = {kind: 'touched'};

/** Three careful plucks of each, about 7.7 cents sharp. */
export const sharpByEight = [harmonic(0.3), fretted(8.2), harmonic(0.1), fretted(7.6), harmonic(0.4), fretted(8.1)];
