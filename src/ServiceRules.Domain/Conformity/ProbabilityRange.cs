using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Conformity;

/// <summary>Between which bounds a probability lies, where no distribution is claimed.</summary>
/// <param name="Least">The least that is possible.</param>
/// <param name="Most">The most that is possible.</param>
public readonly record struct ProbabilityRange(Probability Least, Probability Most)
{
    /// <summary>The probability itself, where both bounds are one.</summary>
    public Probability? Settled => Least == Most ? Least : null;
}
