namespace ServiceRules.Application.Packs;

/// <summary>That packs and limit sheets came to judge here. The earlier ones stay, and the last one counts.</summary>
/// <param name="Number">Its place among all: 1 is what the folder of rules held at the first start.</param>
/// <param name="Digest">Names the packs and sheets, as assessments made by them do.</param>
/// <param name="At">Since when.</param>
/// <param name="Reason">Why.</param>
public sealed record RulesActivation(long Number, string Digest, DateTimeOffset At, string Reason)
{
    /// <summary>Pseudonym of who answers for it; null when nobody is named.</summary>
    public string? By { get; init; }

    /// <summary>Its place in the log; null for the first, which the log tells with the first record judged by it.</summary>
    public long? Entry { get; init; }
}
