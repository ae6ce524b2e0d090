/** Names of keys that are no characters, Ctrl-C and those that leave aside. */
export const namedKeys: readonly string[] = [
	'enter',
	'escape',
	'up',
	'down',
	'left',
	'right',
	'home',
	'end',
	'backspace',
	'delete',
	'tab',
	'shift+tab',
	'pageup',
	'pagedown',
	...'abdefghijklmnoprstuvwxyz'.split('').map(letter => `ctrl+${letter}`),
];
