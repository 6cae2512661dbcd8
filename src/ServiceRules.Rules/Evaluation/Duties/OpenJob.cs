using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>A job that still goes on, as the duties see it.</summary>
internal static class OpenJob
{
    /// <summary>The frame of a job whose record is open and whose machine is not handed back; null of any other.</summary>
    public static DutyFrame? Of(JobFrame job)
    {
        var rule = job
            .Book.Packs.SelectMany(pack => pack.Rules)
            .LastOrDefault(rule => rule.Check is Check.EnergyControl { Of: EnergyDuty.WorkByAuthorised });
        if (rule is null || job.State != RecordState.Open)
        {
            return null;
        }

        var duty = DutyFrame.Of(rule, job);
        return
            duty.Reading.EndOfWork() is { } end
            && duty.Reading.Of(TimelineEventKind.HandedBack).Any(back => back.Place() > end.Place())
            ? null
            : duty;
    }
}
