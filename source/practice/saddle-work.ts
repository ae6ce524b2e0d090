import type {Rng} from '../numeric/rng.ts';
import type {Moved} from './bridge-work.ts';
import {around} from './draws.ts';
import {type Guitar, stringAt, withString} from './guitar.ts';
import {settled} from './rest.ts';

/**
 * A saddle moved by hand, positive = back (longer). Normal error of the hand,
 * 0.08 mm unless told otherwise, cut at 2.5 standard deviations; the travel
 * ends where the screw holes do. Meant for a slack string: nothing stops a
 * careless caller from moving a tight one, and its pitch follows.
 */
export function moveSaddle(rng: Rng, guitar: Guitar, string: number, travelM: number): Moved {
	const {saddleM, seat} = stringAt(guitar, string);
	const wantedM = saddleM + around(rng, travelM, guitar.hands.saddleSdM);
	const reachedM = Math.min(seat.saddleRangeM[1], Math.max(seat.saddleRangeM[0], wantedM));
	return {guitar: settled(withString(guitar, string, {saddleM: reachedM})), ranOut: reachedM !== wantedM};
}

/** Saddle position behind the scale line as a person measures it, m. */
export function measureSaddle(rng: Rng, guitar: Guitar, string: number): number {
	return stringAt(guitar, string).saddleM + around(rng, 0, saddleReadingSdM);
}

/** A scale laid along the string: a quarter of a millimetre is what an eye makes of it. */
const saddleReadingSdM = 0.25e-3;

/** All fine tuners to the middle of their travel. */
export function centreFineTuners(guitar: Guitar): Guitar {
	const strings = guitar.strings.map(string => ({...string, fineTunerM: string.seat.fineTunerTravelM / 2}));
	return settled({...guitar, strings});
}
