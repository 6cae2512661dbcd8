using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Applying;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases.Coverage;

/// <summary>What one case shows of the rule that it promises something about.</summary>
/// <param name="Rule">The rule in force; null when none of that identity is.</param>
/// <param name="Built">The case.</param>
/// <param name="Reach">Whether the rule applies to the subject, and by what; null when the subject is not there.</param>
/// <param name="Finding">What it says; null when it does not apply.</param>
internal sealed record ExercisedRule(Rule? Rule, BuiltCase Built, SubjectReach? Reach, Finding? Finding)
{
    /// <summary>Whether the rule would apply if only this part were not asked.</summary>
    public bool IsKeptOutBy(AskedPart part) =>
        Reach is { Applies: false }
        && Reach.OfJob.All(answer => IsNot(answer, part))
        && Reach.Units.Any(unit => unit.Answers.All(answer => IsNot(answer, part)));

    /// <summary>The units that the case speaks of, as far as they are held to a sheet.</summary>
    public IEnumerable<UnitWork> UnitsOn(LimitSheet sheet) =>
        Built.Record.Units.Where(unit =>
            unit.Sheet == sheet.Id.Text && (Built.Subject is not Subject.Unit one || one.Id == unit.Id)
        );

    private static bool IsNot(PartAnswer answer, AskedPart part) => answer.Holds || answer.Part == part;
}
