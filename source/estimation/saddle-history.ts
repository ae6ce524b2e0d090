/**
 * What happened to one saddle, oldest first: all that its belief is made of.
 * Cents positive = sharp, travel positive = back (longer).
 */
export type SaddleHappening =
	/** A pluck: `harmonic` and `fretted` (12th) against target + 1 octave, `open` against target; `heardSdCents` of the fit alone if it was heard and not read off a tuner. */
	| {
			readonly kind: 'read';
			readonly how: 'open' | 'harmonic' | 'fretted';
			readonly cents: number;
			readonly heardSdCents?: number;
	  }
	/** Something that may move the open pitch was touched: a peg, another string, the claw, the clamp. */
	| {readonly kind: 'touched'}
	/** Slackened, moved by what the person says it moved (not what was asked for), brought up again. */
	| {readonly kind: 'moved'; readonly travelMm: number}
	/** Place measured, mm behind the scale line. */
	| {readonly kind: 'measured'; readonly positionMm: number}
	/** Another string: its error has to be learned again, the place of the saddle stays. */
	| {readonly kind: 'restrung'};

/** Spread of hands and tools around one saddle; judgement unless a source is named. */
export interface SaddleNoise {
	/** One reading of the tuner, cents. */
	readonly tunerCents: number;
	/** What an even press varies from one pluck to the next, cents. */
	readonly pressCents: number;
	/** What every press at one place does alike, so that plucks do not average it out: the finger's own habit, wire that slides at the nut or does not, cents. */
	readonly alikeCents: number;
	/** Saddle set against what was reported, mm. */
	readonly settingMm: number;
	/** A measured place, mm. */
	readonly rulerMm: number;
	/** How far strings answer differently from the model, as a ratio; the ruler's own scale is in it. */
	readonly slopeRatio: number;
	/** Model's own error at a known place, cents. */
	readonly modelCents: number;
}

export const usualSaddleNoise: SaddleNoise = {
	tunerCents: 0.5,
	pressCents: 0.3,
	alikeCents: 0.2,
	settingMm: 0.15,
	rulerMm: 0.2,
	slopeRatio: 0.04,
	modelCents: 2.5,
};
