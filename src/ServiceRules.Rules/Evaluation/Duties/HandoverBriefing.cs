using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Whom an entry of a handover shows briefed.</summary>
internal static class HandoverBriefing
{
    /// <summary>
    /// Between one who had worked and somebody who takes over, whoever of them enters it. One that names nobody is whoever entered
    /// it briefed, or by one who had worked where nobody else is to come in.
    /// </summary>
    /// <param name="entry">The entry.</param>
    /// <param name="next">Who takes over.</param>
    /// <param name="isAlone">Whether nobody else takes over with them.</param>
    /// <param name="hadWorked">Whether somebody had worked by then.</param>
    public static bool IsOf(
        OrderedEvent entry,
        Id<Participant> next,
        bool isAlone,
        Func<Id<Participant>, bool> hadWorked
    )
    {
        if (entry.Event.Others.IsEmpty)
        {
            return entry.Event.Actor == next || (isAlone && hadWorked(entry.Event.Actor));
        }

        ImmutableArray<Id<Participant>> took = [entry.Event.Actor, .. entry.Event.Others];
        return took.Contains(next) && took.Any(hadWorked);
    }
}
