/** Where something is, part by part: a name that runs from right to left must not turn the rest round. */
export function Where({ text }: { text: string }) {
  return (
    <>
      {text.split(' · ').map((part, at) => (
        <>
          {at > 0 ? ' · ' : ''}
          <bdi>{part}</bdi>
        </>
      ))}
    </>
  );
}
