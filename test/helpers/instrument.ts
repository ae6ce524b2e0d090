import type {InstrumentModel} from '../../source/estimation/instrument-model.ts';
import {axialStiffnessN, wireFrom} from '../../source/physics/wire.ts';

const thou = 25.4e-6;

/** Invented six-string at standard pitch: gauges in thousandths, 648 mm. */
export function nines(): InstrumentModel {
	const rows = [
		[9, false, 329.628],
		[11, false, 246.942],
		[16, false, 195.998],
		[24, true, 146.832],
		[32, true, 110],
		[42, true, 82.407],
	] as const;
	return {
		springs: 3,
		tailArmM: 0.03,
		strings: rows.map(([gauge, wound, targetHz]) => {
			const wire = wireFrom({gaugeM: gauge * thou, wound});
			return {
				wound,
				axialStiffnessN: axialStiffnessN(wire),
				massPerLengthKgPerM: wire.massPerLengthKgPerM,
				speakingLengthM: 0.648,
				behindNutM: 0.1,
				targetHz,
				breakingLoadN: wire.breakingLoadN,
			};
		}),
	};
}
