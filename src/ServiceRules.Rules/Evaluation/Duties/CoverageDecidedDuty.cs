using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Where work is said not to be covered at all, that is for a person to decide: nothing here decides it, and nothing is let off by it.</summary>
internal static class CoverageDecidedDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var claims = duty.Claims.Where(made => made.Claim.Kind == ExemptionKind.NotCovered).ToList();
        if (claims.Count == 0)
        {
            return TimelineOutcome.NotApplicable("Nobody says that the work is not covered.");
        }

        var made = claims[^1];
        var ground = made.Claim.Ground is { } named ? $" ({named})" : string.Empty;
        var said =
            $"The record says {duty.Words.AtBy(made.Entry)} that the duties of isolation do not cover this work{ground}";
        var text = made.Claim.DecidedBy is { } person
            ? $"{said}, as {person} decided; the record was judged as if they do."
            : $"{said}, and names nobody who decided it; the record was judged as if they do.";
        return TimelineOutcome.Of(
            Verdict.Unproven,
            FindingReason.StepMissing,
            text,
            claims.Select(claim => claim.Entry).Evidence(),
            made.Claim.DecidedBy is null
                ? "Have a named person decide whether the work is covered; until then lock out as usual."
                : "Have whoever looks after safety confirm the decision; until then lock out as usual."
        );
    }
}
