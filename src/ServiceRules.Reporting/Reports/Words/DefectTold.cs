using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using Requirement = ServiceRules.Rules.Model.Rule;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>Faulty guards of a unit, which stop the whole machine as a safety defect and are told there.</summary>
public static class DefectTold
{
    /// <summary>The finding about safety defects that tells all that this one rests on; null: none does.</summary>
    /// <param name="finding">What is to be told of a unit.</param>
    /// <param name="assessment">The job as it was judged.</param>
    /// <param name="rules">The rules by their names.</param>
    public static Finding? Of(
        Finding finding,
        Assessment assessment,
        IReadOnlyDictionary<string, Requirement> rules
    )
    {
        ArgumentNullException.ThrowIfNull(finding);
        ArgumentNullException.ThrowIfNull(assessment);
        ArgumentNullException.ThrowIfNull(rules);
        return
            finding is { Verdict: Verdict.NotMet, LetOut: null, Subject: Subject.Unit }
            && CheckOf(finding, rules) is Check.SoundCondition { Quantity: MeasuredQuantity.Guards }
            ? assessment.Findings.FirstOrDefault(other =>
                other is { Subject: Subject.Job, Verdict: Verdict.NotMet, LetOut: null }
                && CheckOf(other, rules) is Check.RecordPart { Part: RequiredPart.SafetyDefectsClosed }
                && finding.Evidence.All(other.Evidence.Contains)
            )
            : null;
    }

    private static Check? CheckOf(Finding finding, IReadOnlyDictionary<string, Requirement> rules) =>
        rules.GetValueOrDefault(finding.Rule)?.Check;
}
