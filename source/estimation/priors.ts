/**
 * What is assumed of a floating bridge never seen before. No published values
 * for knife-edge bridges were found, so all of it is common practice or plain
 * judgement, wide enough that readings soon outweigh it.
 */
export const nominal = {
	/** String contact above the knife edge, metres. Judgement: 9 to 16 mm seen as plausible. */
	armM: 0.0125,
	/** String contact behind the knife edge, metres. Judgement: 2 to 14 mm seen as plausible, saddles and scale line together. */
	setbackM: 0.007,
	/** Between neighbouring strings at the bridge, metres. Common practice, no source: 10 to 11 mm. */
	stringSpacingM: 0.0105,
	/** Curve that the saddles follow, metres. Common practice, no source: 12 to 17 in. */
	fingerboardRadiusM: 0.38,
	/** What the knife edge can hold, shares of the strings' moment at pitch: about one cent of the string that reacts most. Judgement. */
	friction: 0.0008,
	/**
	 * Tension at the nut may differ by exp(±this) from that behind it before wire slides: friction times
	 * wrap. Coefficients stay below 0.17 plain and 0.26 wound (Groves & Kemp, Archives of Acoustics, 2019);
	 * half to two thirds of that at some 10 degrees of wrap.
	 */
	nutHold: {plain: 0.016, wound: 0.024},
	/** Spring hooks below the knife edge, metres. Judgement: 35 to 45 mm. */
	springArmM: 0.04,
	/** One spring, N/m. Judgement: 1.5 to 3.5 N/mm. */
	springRateNPerM: 2400,
	/** Back stop: the tail lies in its recess. Judgement: 6 to 12 degrees. */
	backStopRad: 0.16,
	/** Front stop: far dive, never reached in a set-up. */
	frontStopRad: -0.6,
} as const;

/** Prior standard deviations of the unknowns (see layout.ts for their units). */
export const priorSd = {
	/** Modulus of music wire is quoted from 190 to 203 GPa; open nuts grip part of the length behind them. */
	stiffnessPlain: 0.06,
	/** Core of a wound string is not on the packet. */
	stiffnessWound: 0.14,
	/** Diameter tolerance of .0002 in on .009 in is 4.4 % of mass (wire maker's table). */
	massPlain: 0.018,
	massWound: 0.035,
	/** Nut to peg is 40 to 200 mm by string and head; common practice, no source. */
	behind: 0.5,
	rate: 0.45,
	/** Pull of a string as it comes in, shares of its pull at pitch: from slack to far sharp. */
	pull: 0.4,
	/** Springs' moment at level against the strings' at pitch. Plates come in tilted by a few degrees. */
	home: 0.12,
	/** How exactly the plate came in at rest: it was not touched. */
	balance: 0.0005,
	friction: 0.0004,
	arm: 0.18,
	springArm: 0.08,
	stop: 0.045,
	setback: 0.003,
} as const;

/** Noise of hands and tools, and what the model leaves out. */
export const noise = {
	/** Tuner and pluck, cents. */
	readingCents: 0.5,
	/** What one pluck differs from the next however well it is heard (force, place, what its attack leaves), cents: in a tuner's reading it is included. */
	pluckCents: 0.15,
	/** Where a hand stops turning, cents. */
	handCents: 0.7,
	/** Tail height, metres. */
	tailM: 0.00012,
	/** A support made to hold the tail at a height, metres: sheets of paper, a tenth of a millimetre each, and a ruler laid on twice. Judgement. */
	supportM: 0.0001,
	/** Claw screws, turns are set to this, metres of advance. */
	clawM: 0.00004,
	/** Any touch lets the others settle a little: cents. */
	touchCents: 0.14,
	/** Share of a string's answer to the bridge that does not follow the model (how the nut holds, length behind it, uneven arms). */
	travelShare: 0.027,
	/** What is left of friction at knife edge and nut in one movement, cents. */
	stickCents: 0.17,
	/** What friction at the knife edge does not repeat from one movement to the next, shares of itself. */
	frictionShare: 0.2,
	/** A new string's give at its first pluck, and half as much at any touch of the others, cents; falls as it settles. */
	newStringCents: 1.2,
	/** What pulling by hand, all along its length, takes out of a new string, cents. */
	pullCents: 25,
	/** What a dip of the plate and back leaves behind at an open nut, cents. */
	dipCents: 2,
	/** Clamping the locking nut, cents. */
	clampCents: 4,
} as const;
