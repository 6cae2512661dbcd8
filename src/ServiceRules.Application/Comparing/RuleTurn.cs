using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Comparing;

/// <summary>From which verdict and effect to which; null: not judged.</summary>
public sealed record RuleTurn(
    Verdict? Was,
    Effect WasEffect,
    bool WasLetOut,
    Verdict? WouldBe,
    Effect WouldBeEffect,
    bool WouldBeLetOut
)
{
    /// <summary>The turn that a flip takes.</summary>
    public static RuleTurn Of(Flip flip)
    {
        ArgumentNullException.ThrowIfNull(flip);
        return new(
            flip.Was?.Verdict,
            flip.Was?.Effect ?? Effect.None,
            flip.Was?.LetOut is not null,
            flip.WouldBe?.Verdict,
            flip.WouldBe?.Effect ?? Effect.None,
            flip.WouldBe?.LetOut is not null
        );
    }
}
