using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Whom an entry of a handover shows briefed.</summary>
internal static class HandoverBriefing
{
    /// <summary>
    /// By one who had worked, or by somebody who names both; never by the word of whoever takes over alone, who cannot brief
    /// themselves. One that names nobody, by one who had worked, is for whoever takes over where nobody else is to come in.
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
        if (entry.Event.Actor == next)
        {
            return false;
        }

        if (entry.Event.Others.IsEmpty)
        {
            return isAlone && hadWorked(entry.Event.Actor);
        }

        return entry.Event.Others.Contains(next)
            && (hadWorked(entry.Event.Actor) || entry.Event.Others.Any(hadWorked));
    }

    /// <summary>Entered by whoever takes over: alone, or with one who had worked, who does not say so.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="next">Who takes over.</param>
    /// <param name="hadWorked">Whether somebody had worked by then.</param>
    public static bool IsOwnWord(
        OrderedEvent entry,
        Id<Participant> next,
        Func<Id<Participant>, bool> hadWorked
    ) => entry.Event.Actor == next && (entry.Event.Others.IsEmpty || entry.Event.Others.Any(hadWorked));
}
