using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Judging;

/// <summary>What was read on a unit and still holds, and that no rule held against anything.</summary>
public static class UnjudgedReadings
{
    /// <summary>The quantities.</summary>
    /// <param name="findings">The findings of the job.</param>
    /// <param name="ruleOf">The rule of a finding, where it is known.</param>
    /// <param name="unit">The unit.</param>
    public static ImmutableArray<MeasuredQuantity> Of(
        IEnumerable<Finding> findings,
        Func<Finding, Rule?> ruleOf,
        UnitFrame unit
    )
    {
        ArgumentNullException.ThrowIfNull(findings);
        ArgumentNullException.ThrowIfNull(ruleOf);
        ArgumentNullException.ThrowIfNull(unit);
        var judged = findings
            .Where(finding => finding.Verdict is not Verdict.NotApplicable)
            .Where(finding => finding.Subject is not Subject.Unit one || one.Id == unit.Work.Id)
            .Select(ruleOf)
            .OfType<Rule>()
            // That something was read after it moved says nothing of what it reads.
            .Where(rule => rule.Check is not Check.Freshness)
            .SelectMany(rule => CheckReach.JudgedAsLeft(rule.Check))
            .ToHashSet();
        return
        [
            .. unit
                .Known.Where(known => known.Left.Any(place => place.State is not KnownState.Stale))
                .Select(known => known.Quantity)
                .Where(quantity => !judged.Contains(quantity))
                .Distinct()
                .Order(),
        ];
    }
}
