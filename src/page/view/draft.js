// What is being typed, blanks at its ends and all: a cell is kept without them, and the next letter must find them there.
import {useState} from 'preact/hooks';

export function useDraft(value) {
  const [draft, setDraft] = useState('');
  return [draft.trim() === value ? draft : value, setDraft];
}
