using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Comparing;

/// <summary>From which verdict and effect to which; null: not judged.</summary>
public sealed record RuleTurn(Verdict? Was, Effect WasEffect, Verdict? WouldBe, Effect WouldBeEffect)
{
    /// <summary>The turn that a flip takes.</summary>
    public static RuleTurn Of(Flip flip)
    {
        ArgumentNullException.ThrowIfNull(flip);
        return new(
            flip.Was?.Verdict,
            flip.Was?.Effect ?? Effect.None,
            flip.WouldBe?.Verdict,
            flip.WouldBe?.Effect ?? Effect.None
        );
    }
}
