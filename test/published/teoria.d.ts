/** The part of `teoria` (which ships no types) that our second opinion on pitches asks. */
declare module 'teoria' {
	export function note(name: string): {
		/** Hertz; `concertPitch` is A4, hertz, default 440. */
		fq(concertPitch?: number): number;
		/** Semitones, A4 = 69. */
		midi(): number;
	};
}
