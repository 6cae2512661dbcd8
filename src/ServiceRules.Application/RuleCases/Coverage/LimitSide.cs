using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases.Coverage;

/// <summary>One side of one of the two figures that a limit is printed in. Each figure is a limit of its own.</summary>
/// <param name="Limit">The limit.</param>
/// <param name="Print">The figure.</param>
/// <param name="IsKept">Whether it is the side on which the limit is kept.</param>
internal sealed record LimitSide(SheetLimit Limit, PrintedLength Print, bool IsKept)
{
    /// <summary>The sides of a limit.</summary>
    public static IEnumerable<LimitSide> Of(SheetLimit limit) =>
        from print in new[] { limit.Print.Governing, limit.Print.Alternate }
        where print is not null
        from isKept in new[] { true, false }
        select new LimitSide(limit, print, isKept);

    /// <summary>The side in a word.</summary>
    public string Words => IsKept ? CoverageWords.Kept : CoverageWords.Broken;

    /// <summary>Whether a case shows it on a unit that is held to the sheet.</summary>
    public bool IsShownBy(ExercisedRule shown, LimitSheet sheet) =>
        shown is { Rule.Check: { } check, Finding: { } finding }
        && finding.Verdict == Shows
        && Limit.IsAskedBy(check)
        && shown.UnitsOn(sheet).ToList() is { Count: > 0 } units
        && (
            Limit.Member is LimitMember.Passes or LimitMember.Stops
                ? units.Any(IsTried)
                : finding.Comparisons.Any(IsHeldAgainst)
        );

    private Verdict Shows => IsKept ? Verdict.Met : Verdict.NotMet;

    private bool IsTried(UnitWork unit) =>
        unit
            .Entries.OfType<Reading>()
            .Where(reading => reading.Quantity == Limit.Limit.Quantity)
            .Select(reading => reading.Observed)
            .OfType<Observation.FeelerTest>()
            .Any(test =>
                test.Feelers.Length == 1
                && test.Feelers[0].System == Print.System
                && test.Feelers[0].Value == Print.Value
                && test.Passes == (Limit.Member is LimitMember.Passes == IsKept)
            );

    private bool IsHeldAgainst(Comparison compared) =>
        compared.Verdict == Shows
        && compared.Quantity == Limit.Limit.Quantity
        && Limit.Member switch
        {
            LimitMember.Lower or LimitMember.WornBelow => compared.LowerLimit == Print.Value
                && (IsKept || (compared.KnownUpper ?? compared.Value) < compared.LowerLimit),
            LimitMember.Upper => compared.UpperLimit == Print.Value
                && (IsKept || (compared.KnownLower ?? compared.Value) > compared.UpperLimit),
            LimitMember.ToleranceAboutTarget => compared.UpperLimit - compared.Target == Print.Value,
            _ => compared.UpperLimit == Print.Value,
        };
}
