using ServiceRules.Application.Packs;

namespace ServiceRules.Host.Packs;

/// <summary>That packs and sheets came to judge here.</summary>
/// <param name="Number">Its place among all; the last one counts.</param>
/// <param name="Digest">Names the packs and sheets.</param>
/// <param name="Since">When.</param>
/// <param name="Reason">Why.</param>
/// <param name="By">Pseudonym of who answers for it, where somebody is named.</param>
/// <param name="Entry">Its entry of the log; that of the first is filed with the first record judged.</param>
internal sealed record ToldActivation(
    long Number,
    string Digest,
    DateTimeOffset Since,
    string Reason,
    string? By,
    long? Entry
)
{
    public static ToldActivation Of(RulesActivation one) =>
        new(one.Number, one.Digest, one.At, one.Reason, one.By, one.Entry);
}
