import type {StringNumber} from '../music/string-number.ts';
import type {StringRow} from './bench.ts';
import type {InstrumentSheet} from './sheet.ts';
import type {SessionState} from './state.ts';

/** What is known of one string's saddle and intonation. */
export function saddleOf(
	state: SessionState,
	_sheet: InstrumentSheet,
	string: StringNumber,
): Pick<StringRow, 'saddleMm' | 'intonationCents' | 'saddleMoveMm'> {
	const {saddleMm} = state.strings[string];
	return saddleMm === undefined ? {} : {saddleMm};
}
