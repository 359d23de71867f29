export default function Start({ why }: { readonly why: string }) {
  return <p>{why}</p>;
}
