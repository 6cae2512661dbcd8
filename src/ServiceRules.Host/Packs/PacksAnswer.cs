using ServiceRules.Application.Packs;

namespace ServiceRules.Host.Packs;

/// <summary>What judges here, what did, and what may.</summary>
/// <param name="Digest">Names packs and sheets in force together, as the <c>digests</c> of assessments do.</param>
/// <param name="Packs">The packs in force.</param>
/// <param name="Sheets">The identities of the limit sheets in force.</param>
/// <param name="Activation">Since when, by whom and why.</param>
/// <param name="Activations">The last activations, the newest first.</param>
/// <param name="Stored">What may be put in force, the newest first.</param>
internal sealed record PacksAnswer(
    string Digest,
    IReadOnlyList<ToldPack> Packs,
    IReadOnlyList<string> Sheets,
    ToldActivation Activation,
    IReadOnlyList<ToldActivation> Activations,
    IReadOnlyList<ToldStoredPacks> Stored
)
{
    private const int ToldMost = 100;

    public static PacksAnswer Of(JudgingRules now, IRulesStore store)
    {
        var rules = ToldPacks.Of(now.Book, now.Activation.Digest);
        return new(
            rules.Digest,
            rules.Packs,
            rules.Sheets,
            ToldActivation.Of(now.Activation),
            [.. store.Activations(ToldMost).Select(ToldActivation.Of)],
            [.. store.Stored(ToldMost).Select(one => new ToldStoredPacks(one.Digest, one.At))]
        );
    }
}
