using ServiceRules.Domain.Quantities;

namespace ServiceRules.Rules.Evaluation;

/// <summary>One feeler tried.</summary>
/// <param name="Thickness">Nominal thickness (sum of a stack).</param>
/// <param name="Tolerance">Half width of its tolerance; null when the instrument states none.</param>
/// <param name="Passes">Whether it passed.</param>
/// <param name="Entry">Evidence pointer.</param>
public sealed record FeelerTried(Length Thickness, Length? Tolerance, bool Passes, string Entry)
{
    /// <summary>A stack whose tolerances were added by root-sum, as its set names it: no bound.</summary>
    public bool IsByRootSum { get; init; }
}
