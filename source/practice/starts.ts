import type {Rng} from '../numeric/rng.ts';
import {clampedAsItIs} from './clamp.ts';
import {between} from './draws.ts';
import type {Guitar} from './guitar.ts';
import {clawBalanced, pitchesBalanced, pitchesHeld} from './poise.ts';
import {settled} from './rest.ts';
import {loosened} from './slack.ts';

/**
 * How a guitar comes to the bench.
 *
 * - `level-and-in-tune`: nothing to do.
 * - `drift`: strings −40 to +25 cents, claw up to 1.5 turns off.
 * - `whole-tone-flat`, `whole-tone-sharp`: all about 200 cents off, claw right for pitch.
 * - `slack`: a new set, not one string tight yet, nothing supported.
 * - `new-gauge`: a new set at some rough pitch on a claw that balanced a lighter or heavier one.
 * - `intonation-off`: in tune and level within a few cents, saddles anywhere.
 */
export const starts = [
	'level-and-in-tune',
	'drift',
	'whole-tone-flat',
	'whole-tone-sharp',
	'slack',
	'new-gauge',
	'intonation-off',
] as const;
export type Start = (typeof starts)[number];

export interface Arrival {
	readonly start: Start;
	/** Where in its dead band each string stands at the nut, −1 to 1. */
	readonly nutShares: readonly number[];
	/** Tail off the wish at pitch; decides the claw when given. */
	readonly plateOffM: number | undefined;
	readonly nut: 'open' | 'locked';
}

/** A guitar at home (pitch, wish) changed into how it comes in. */
export function started(rng: Rng, home: Guitar, {start, nutShares, plateOffM, nut}: Arrival): Guitar {
	const clawed = plateOffM === undefined ? clawFound(rng, home, start) : tailOff(home, plateOffM);
	const leaningNm = between(rng, -1, 1) * home.body.pivotFrictionNm;
	const cents = home.strings.map(() => roughCents(rng, start));
	if (start === 'slack')
		return settled(
			home.strings.reduce((guitar, _, index) => loosened(guitar, index, between(rng, 4e-3, 9e-3)), clawed),
		);
	const free = pitchesBalanced(clawed, cents, nutShares, leaningNm);
	return nut === 'locked' ? clampedAsItIs(free) : free;
}

function roughCents(rng: Rng, start: Start): number {
	if (start === 'drift') return between(rng, -40, 25);
	if (start === 'whole-tone-flat') return between(rng, -220, -180);
	if (start === 'whole-tone-sharp') return between(rng, 180, 220);
	if (start === 'new-gauge') return between(rng, -150, 50);
	return start === 'intonation-off' ? between(rng, -3, 3) : 0;
}

function clawFound(rng: Rng, home: Guitar, start: Start): Guitar {
	if (start === 'drift') {
		const awayM = between(rng, -1.5, 1.5) * home.spec.clawScrewPitchM;
		return {...home, body: {...home.body, clawXM: home.body.clawXM - awayM}};
	}

	if (start === 'new-gauge') {
		// One packet lighter or heavier is 10 to 22 % of tension; at the same pitch tension is all that the claw feels.
		const ratio = between(rng, 1.1, 1.22) ** (rng.uniform() < 0.5 ? 1 : -1);
		const asIfCents = 600 * Math.log2(ratio);
		const before = clawBalanced(
			pitchesHeld(
				home,
				home.strings.map(() => asIfCents),
			),
		);
		return {...home, body: before.body};
	}

	return home;
}

/** The claw set so that the plate stands this far off the wish once all strings are at pitch. */
function tailOff(home: Guitar, offM: number): Guitar {
	const {tailArmM, wishTailM = 0} = home.spec;
	const angleRad = -Math.asin((wishTailM + offM) / tailArmM);
	return {...home, body: clawBalanced(pitchesHeld({...home, angleRad}, [])).body};
}
