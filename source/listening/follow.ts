import {centsBetween} from '../music/pitch.ts';
import {estimateTone} from './estimate-tone.ts';
import {isOtherTone, leapAfter, leapLooks} from './leap.ts';
import {type Heard, type HearingHints, type Listening, type Ring, samplesOf} from './listening.ts';
import {lastLook, scratchS, tell, verdictOn} from './look.ts';

/** A ringing string is looked at this often, s. */
const everyS = 0.2;
/** Quick looks take this much of the past, the careful one this much, s. */
const quickS = 0.35;
const carefulS = 0.6;
/** It stands still when successive looks differ by less than this, cents, beyond what they are unsure. */
const stillCents = 0.7;
/** So many looks in a row make it stand still. */
const stillLooks = 3;
/** It has been turned when it stands this far from what was told, cents. */
const turnedCents = 2;
/** A peg is seldom turned this far between two looks, cents: such a jump may be another string, or an octave misheard, and says nothing until it has held. */
const farthestStepCents = 120;
/** A ring is followed down to this share of the pluck's level. */
const faintest = 0.02;

/**
 * Follows the ringing string after it was told: where it is now, for the
 * screen, and a new reading when its peg was turned and it stands still again.
 */
export function followRing(listening: Listening, now: number, hints: HearingHints): Heard {
	const {pluck, sampleRateHz} = listening;
	if (!pluck?.ring || now < pluck.ring.next) return {listening, plucks: []};
	const {ring, tone} = pluck;
	const next = now + Math.round(everyS * sampleRateHz);
	const rest = (changed: Partial<Ring>): Heard => ({
		listening: {...listening, pluck: {...pluck, ring: {...ring, next, ...changed}}},
		plucks: [],
	});
	const live = soundLast(listening, now, quickS, 'quick', hints);
	if (!live || live.level < faintest * (tone?.level ?? 0)) {
		const {hz: _, ...gone} = ring;
		return {listening: {...listening, pluck: {...pluck, ring: {...gone, next, steadyLooks: 0}}}, plucks: []};
	}

	const step = ring.hz === undefined ? Number.POSITIVE_INFINITY : Math.abs(centsBetween(live.hz, ring.hz));
	const isStill = (cents: number, sdCents: number) => cents < stillCents + 2 * Math.hypot(live.sdCents, sdCents);
	let steadyLooks = isStill(step, ring.sdCents) ? ring.steadyLooks + 1 : 0;
	if (ring.hz !== undefined && step > farthestStepCents) {
		const samples = lastSamples(listening, now, quickS);
		const leap = leapAfter(ring.leap, live, {
			nearCents: farthestStepCents,
			isStill,
			isOther: () => isOtherTone(live, ring, {samples, sampleRateHz}, hints.believedHz ?? []),
		});
		if (leap.isOther || leap.looks < leapLooks) return rest({leap});
		({steadyLooks} = leap);
	}

	const seen = {
		hz: live.hz,
		sdCents: live.sdCents,
		steadyLooks,
		tone: {law: live.law, level: live.level},
		leap: undefined,
	};
	const moved = ring.toldHz === undefined ? Number.POSITIVE_INFINITY : Math.abs(centsBetween(live.hz, ring.toldHz));
	if (steadyLooks < stillLooks || moved < turnedCents + 3 * live.sdCents) return rest(seen);

	const careful = soundLast(listening, now, carefulS, 'careful', hints);
	if (verdictOn(careful, lastLook.enoughCents) !== 'settled') return rest({...seen, steadyLooks: 1});
	const told = tell(listening, now, 'settled', careful, true);
	const again = told.listening.pluck!;
	return {...told, listening: {...told.listening, pluck: {...again, ring: {...again.ring!, next}}}};
}

/** The tone of the last `lengthS` before sample `now`, onset or not. */
export function soundLast(
	listening: Listening,
	now: number,
	lengthS: number,
	care: 'quick' | 'careful',
	hints: HearingHints,
) {
	const {sampleRateHz, pluck} = listening;
	const samples = lastSamples(listening, now, lengthS);
	// Long after an attack, unless one was heard.
	const sinceOnsetS = pluck ? (now - samples.length - pluck.onset) / sampleRateHz : 2;
	return estimateTone({samples, sampleRateHz, sinceOnsetS, ...hints}, care);
}

/** Sound of the last `lengthS` before sample `now`, the plectrum's scratch left out. */
function lastSamples(listening: Listening, now: number, lengthS: number): Float32Array {
	const {sampleRateHz, pluck, recentFrom} = listening;
	const scratch = pluck ? pluck.onset + Math.round(scratchS * sampleRateHz) : 0;
	return samplesOf(listening, Math.max(recentFrom, scratch, now - Math.round(lengthS * sampleRateHz)), now);
}
