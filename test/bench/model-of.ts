import type {InstrumentModel} from '../../source/estimation/instrument-model.ts';
import {axialStiffnessN, wireFrom} from '../../source/physics/wire.ts';
import type {GuitarSpec} from '../../source/practice/guitar.ts';

/** What a person can tell the tool about a simulated guitar: its packet of strings, its scale, its springs. */
export function modelOf(spec: GuitarSpec): InstrumentModel {
	return {
		springs: spec.springs,
		tailArmM: spec.tailArmM,
		strings: spec.strings.map(({gaugeM, wound, coreM, targetHz}) => {
			const wire = wireFrom({gaugeM, wound, ...(coreM === undefined ? {} : {coreM})});
			return {
				wound,
				axialStiffnessN: axialStiffnessN(wire),
				massPerLengthKgPerM: wire.massPerLengthKgPerM,
				speakingLengthM: spec.scaleLengthM,
				behindNutM: 0.1,
				targetHz,
				breakingLoadN: wire.breakingLoadN,
			};
		}),
	};
}
