/** The seven words of a file, to be written down; numbered, so that they can be told over a telephone. */
export function Words({ words }: { words: string }) {
  return (
    <ol class="seal-words" aria-label="the seven words">
      {words.split(' ').map((word) => (
        <li key={word}>{word}</li>
      ))}
    </ol>
  );
}
