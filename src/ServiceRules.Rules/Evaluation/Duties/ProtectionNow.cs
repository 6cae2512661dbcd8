using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What one person lacks of protection at the last entry of an open job, should their hands go in next.</summary>
internal static class ProtectionNow
{
    /// <summary>Everything lacking, in the order in which it is done; nothing where a claim takes lockout off the job.</summary>
    public static IEnumerable<string> Lacking(DutyFrame duty, Id<Participant> person)
    {
        var reading = duty.Reading;
        if (reading.Events is not [.., var last] || Suppression.HoldingExemption(duty) is not null)
        {
            yield break;
        }

        if (reading.Running.StretchAt(last.Place()) is { } run)
        {
            var start = reading.Events.FirstOrDefault(entry => entry.Place() == run.From);
            yield return start is null
                ? "the machine shut down"
                : $"the machine shut down after {EventWords.Done(start.Event.Kind)} at {duty.Words.Time(start)}";
        }

        if (reading.Protection is { } protection)
        {
            foreach (var lack in ProtectionLack.Whole(last.Place(), person, reading, protection, duty.Words))
            {
                yield return lack.What;
            }
        }
    }
}
