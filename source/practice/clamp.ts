import type {Rng} from '../numeric/rng.ts';
import {around} from './draws.ts';
import type {Guitar, GuitarString} from './guitar.ts';
import {settled} from './rest.ts';
import {tensionsN} from './sound.ts';

/** How alike one clamping is to the next, cents. */
const clampSdCents = 0.4;

/** The nut clamped: each string is pressed out of line by its own, much the same amount each time, and from now on ends at the nut. */
export function clampNut(rng: Rng, guitar: Guitar): Guitar {
	if (guitar.nut === 'locked') return guitar;
	const tensions = tensionsN(guitar);
	const strings = guitar.strings.map((string, index) => {
		const shiftCents = string.seat.clampShiftCents + around(rng, 0, clampSdCents);
		const clampedM = wireTakenM(string, tensions[index]!, shiftCents);
		return {...string, clampedM, frontM: string.frontM - clampedM};
	});
	return settled({...guitar, nut: 'locked', strings});
}

/** The clamp blocks off: what they pressed out of line comes back, and the wire may slide at the nut again. */
export function openNut(guitar: Guitar): Guitar {
	const strings = guitar.strings.map(string => ({...string, frontM: string.frontM + string.clampedM, clampedM: 0}));
	return settled({...guitar, nut: 'open', strings});
}

/** A guitar that has long been clamped and sounds as it does with the clamp on. */
export function clampedAsItIs(guitar: Guitar): Guitar {
	const tensions = tensionsN(guitar);
	const strings = guitar.strings.map((string, index) => ({
		...string,
		clampedM: wireTakenM(string, tensions[index]!, string.seat.clampShiftCents),
	}));
	return {...guitar, nut: 'locked', strings};
}

/** Wire that must leave the front to change the pitch by this much with the plate held. */
function wireTakenM({frontM, wire, on}: GuitarString, tensionN: number, shiftCents: number): number {
	if (!on || tensionN === 0) return 0;
	const strain = tensionN / wire.stretchStiffnessN;
	const shiftedStrain = strain * 2 ** (shiftCents / 600);
	return frontM * (1 - (1 + strain) / (1 + shiftedStrain));
}
