import type {Deed, Fact} from './facts.ts';

/**
 * What a deed does to the guitar.
 * - `work`: a hand changed a setting, or a string gave way: what was read before stands for another guitar;
 * - `stir`: no setting was changed, yet pitches may stand elsewhere: the arm was moved, a night has passed;
 * - `look`: something was read or measured;
 * - `note`: the wizard's own steps, and what a person says about the guitar; the guitar feels nothing of it.
 */
type Nature = 'work' | 'stir' | 'look' | 'note';

/** Every kind of deed: a new one does not compile until it is said here what it does. */
const natures = {
	SheetFilled: 'note',
	StagePassed: 'note',
	StageReopened: 'note',
	ItemTicked: 'note',
	WayChosen: 'note',
	NoteWritten: 'note',
	NutOpened: 'work',
	NutClamped: 'work',
	FineTunersCentred: 'work',
	SupportPlaced: 'work',
	SupportRemoved: 'work',
	ClawTurned: 'work',
	SpringsChanged: 'work',
	PlateMeasured: 'look',
	StringRemoved: 'work',
	StringFitted: 'work',
	StringSlackened: 'work',
	StringStretched: 'work',
	PegTurned: 'work',
	FineTunerTurned: 'work',
	PitchRead: 'look',
	StringSlipped: 'work',
	SaddleMoved: 'work',
	SaddleMeasured: 'look',
	DayPassed: 'stir',
	ArmMoved: 'stir',
} as const satisfies Record<Deed['type'], Nature>;

/** A hand changed a setting, or a string gave way: readings start anew. */
export function isWork({type}: Pick<Fact, 'type'>): boolean {
	return natures[type] === 'work';
}

/** Something after which a pitch may stand elsewhere, by a hand or without one. */
export function mayMovePitch({type}: Pick<Fact, 'type'>): boolean {
	return natures[type] === 'work' || natures[type] === 'stir';
}
