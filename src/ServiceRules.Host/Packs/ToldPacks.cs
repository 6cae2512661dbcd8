using ServiceRules.Application.Packs;
using ServiceRules.Rules.Model;

namespace ServiceRules.Host.Packs;

/// <summary>Packs and limit sheets.</summary>
/// <param name="Digest">Names all of them together, as the <c>digests</c> of assessments do.</param>
/// <param name="Packs">The packs.</param>
/// <param name="Sheets">The identities of the limit sheets.</param>
internal sealed record ToldPacks(string Digest, IReadOnlyList<ToldPack> Packs, IReadOnlyList<string> Sheets)
{
    public static ToldPacks Of(RuleBook book) => Of(book, TryPack.DigestOf(book));

    public static ToldPacks Of(RuleBook book, string digest) =>
        new(
            digest,
            [
                .. book.Packs.Select(pack => new ToldPack(
                    pack.Id.Text,
                    pack.Version,
                    pack.Title,
                    pack.Rules.Length,
                    pack.Citations.Length
                )),
            ],
            [.. book.Sheets.Select(sheet => sheet.Id.Text)]
        );
}
