import {hear} from '../../../source/listening/hear.ts';
import {
	endOf,
	type HeardPluck,
	type HearingHints,
	type Listening,
	startListening,
} from '../../../source/listening/listening.ts';
import {openRecorder} from '../../../source/listening/sources/recorder.ts';
import type {Ears} from '../by-ear.ts';
import type {VirtualSoundCard} from './virtual-sound-card.ts';

export interface LiveEars {
	readonly hear: Ears;
	stop(): void;
}

/** Sound that is waited for after a recording was sent, s: its own length, and the way through the card. */
const patienceS = 4;

/** Ears behind a virtual sound card: what is to be heard is played, recorded by a program of the machine at `sampleRateHz`, and listened to live. */
export function openLiveEars(card: VirtualSoundCard, sampleRateHz: number): LiveEars {
	let listening: Listening = startListening(sampleRateHz);
	let hints: HearingHints = {};
	let onPluck = (_: HeardPluck) => {};
	let onSamples = () => {};
	let cameAt = 0;
	/** Blocks in a row that came as fast as they sounded. */
	let live = 0;
	const source = openRecorder(
		{platform: process.platform, environment: card.environment, sampleRateHz, only: 'parec', patienceMs: 20_000},
		event => {
			if (event.kind === 'trouble') throw new Error(event.trouble.said);
			if (event.kind !== 'samples') return;
			const heard = hear(listening, event.samples, hints);
			listening = heard.listening;
			for (const pluck of heard.plucks) onPluck(pluck);
			// What was held up while this program was busy comes faster than it sounded.
			const tookMs = performance.now() - cameAt;
			cameAt += tookMs;
			live = (1000 * event.samples.length) / sampleRateHz < 1.5 * tookMs ? live + 1 : 0;
			onSamples();
		},
	);
	return {
		hear: async (sound, wanted) => {
			hints = wanted;
			await new Promise<void>(resolve => {
				live = 0;
				onSamples = () => {
					if (live > 3) resolve();
				};
			});
			const sentAt = endOf(listening);
			const played = card.play(sound.samples, sound.sampleRateHz);
			const pluck = await new Promise<HeardPluck | undefined>(resolve => {
				onPluck = heard => {
					if (!heard.isTurned && heard.tone && heard.onsetS * sampleRateHz > sentAt) resolve(heard);
				};
				onSamples = () => {
					if (endOf(listening) > sentAt + patienceS * sampleRateHz) resolve(undefined);
				};
			});
			onPluck = () => {};
			// To its end, so that the next does not sound into it.
			await played;
			return pluck?.verdict === 'settled' ? pluck.tone : undefined;
		},
		stop() {
			source.stop();
		},
	};
}
