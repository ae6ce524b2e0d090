import type {HeardTone} from './estimate-tone.ts';
import {followRing, soundLast} from './follow.ts';
import {humIn} from './hum.ts';
import {levelAfter} from './level.ts';
import {endOf, type Heard, type HeardPluck, type HearingHints, type Listening, samplesOf} from './listening.ts';
import {closePluck, lookAtPluck, shortestS} from './look.ts';
import {onsetFrame, onsetHopS, provingFrames, watchOnset} from './onset.ts';

/** Sound kept, s: the longest look at a pluck and what was before it. */
const keptS = 2.4;

/**
 * Takes the next block of samples, of any length, full scale = 1, and tells the
 * plucks that were heard out. Blocks may be cut anywhere: the plucks are the same.
 */
export function hear(before: Listening, block: Float32Array, hints: HearingHints = {}): Heard {
	let listening = append(before, block);
	const plucks: HeardPluck[] = [];
	const take = (heard: Heard) => {
		listening = heard.listening;
		plucks.push(...heard.plucks);
	};
	const hop = Math.round(onsetHopS * listening.sampleRateHz);
	for (let to = listening.nextFrame + onsetFrame; to <= endOf(listening); to += hop) {
		const frame = samplesOf(listening, to - onsetFrame, to);
		const {watch, isOnset} = watchOnset(listening.watch, frame, listening.sampleRateHz);
		listening = {...listening, watch, nextFrame: listening.nextFrame + hop};
		if (isOnset) take(openPluck(listening, to - onsetFrame - provingFrames * hop, hints));
		take(lookAtPluck(listening, to, hints));
		take(followRing(listening, to, hints));
	}

	return {listening: checkHum(listening), plucks};
}

/** The sound has ended (a file): tells what was heard of the last pluck. */
export function hearEnd(listening: Listening, hints: HearingHints = {}): Heard {
	return closePluck(listening, endOf(listening), hints);
}

/** "Now": the pitch of the last half second or so, onset or not; undefined when nothing like a string sounds. */
export function hearNow(listening: Listening, hints: HearingHints = {}): HeardTone | undefined {
	return soundLast(listening, endOf(listening), 0.6, 'careful', hints);
}

/** The source says that it lost samples here. */
export function loseSamples(listening: Listening): Listening {
	return {...listening, losses: listening.losses + 1};
}

/** A pluck began in the frame that starts at sample `frameFrom`: the one before is told, if it was not. */
function openPluck(listening: Listening, frameFrom: number, hints: HearingHints): Heard {
	const {pluck: last, sampleRateHz} = listening;
	// The frame's last third had just been reached by the pluck.
	const onset = frameFrom + Math.round(0.7 * onsetFrame);
	const closed = closePluck(listening, onset - Math.round(0.5 * onsetFrame), hints);
	// Soon after another onset this may be the same pluck, struck twice: what was before the first counts.
	const isSame = last && !last.isTold && onset - last.onset < 2 * shortestS * sampleRateHz;
	const beforeTo = isSame ? last.beforeTo : onset - Math.round(0.015 * sampleRateHz);
	return {...closed, listening: {...closed.listening, pluck: {onset, beforeTo, look: 0, isTold: false}}};
}

function append(listening: Listening, block: Float32Array): Listening {
	const {recent, recentFrom, sampleRateHz, level} = listening;
	const kept = Math.min(recent.length, Math.round(keptS * sampleRateHz));
	const joined = new Float32Array(kept + block.length);
	joined.set(recent.subarray(recent.length - kept));
	joined.set(block, kept);
	return {
		...listening,
		recent: joined,
		recentFrom: recentFrom + recent.length - kept,
		level: levelAfter(level, block, sampleRateHz),
	};
}

/** Once a second, when nobody has played for a while. */
function checkHum(listening: Listening): Listening {
	const {sampleRateHz, pluck, nextHumCheck} = listening;
	const end = endOf(listening);
	if (end < nextHumCheck) return listening;
	const {hum, ...rest} = {...listening, nextHumCheck: end + sampleRateHz};
	if (pluck && end - pluck.onset < 3 * sampleRateHz) return hum ? {...rest, hum} : rest;
	const now = humIn(samplesOf(listening, end - Math.round(0.5 * sampleRateHz), end), sampleRateHz);
	return now ? {...rest, hum: now} : rest;
}
