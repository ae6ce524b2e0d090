import type {SoundEvent, SoundListener, SoundSource} from '../../listening/sources/sound-source.ts';

/**
 * A source that can be opened only once, such as standard input, listened to
 * as often as somebody wants: in between a recording waits, live sound goes by.
 */
export function reopened(
	openOnce: (listener: SoundListener) => SoundSource,
	{isRecording}: {readonly isRecording: boolean},
): (listener: SoundListener) => SoundSource {
	let source: SoundSource | undefined;
	let listening: SoundListener | undefined;
	/** What a later listener has missed: how it began, and how it ended. */
	let missed: readonly SoundEvent[] = [];
	return listener => {
		listening = listener;
		for (const event of missed) {
			queueMicrotask(() => {
				if (listening === listener) listener(event);
			});
		}

		source ??= openOnce(told => {
			if (told.kind !== 'samples' && told.kind !== 'lost') missed = [...missed, told];
			listening?.(told);
		});
		const {hold, goOn} = source;
		goOn?.();
		return {
			...(hold && {hold}),
			...(goOn && {goOn}),
			stop() {
				if (listening !== listener) return;
				listening = undefined;
				if (isRecording) hold?.();
			},
		};
	};
}
