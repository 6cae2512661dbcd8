using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Keeping;

/// <summary>Which kept assessments rest on which registers: short jobs of one day share theirs.</summary>
internal sealed class ContextUse
{
    private readonly Dictionary<string, HashSet<string>> users = new(StringComparer.Ordinal);
    private long next;

    /// <summary>Looks at what was filed since.</summary>
    public void Follow(ILedgerReading log)
    {
        foreach (var stored in log.Entries(next))
        {
            next = stored.Index + 1;
            if (
                EntryReading.TryRead(stored, out var entry, out _)
                && entry.Entry.Kind is EntryKind.Assessment
                && Of(log, entry.Entry.Content) is { } context
            )
            {
                if (!users.TryGetValue(context, out var all))
                {
                    users.Add(context, all = new(StringComparer.Ordinal));
                }

                _ = all.Add(entry.Entry.Content);
            }
        }
    }

    /// <summary>Whether nothing but these assessments rests on it, of what is kept.</summary>
    public bool IsOnlyOf(ILedgerReading log, string context, IReadOnlySet<string> assessments) =>
        users.TryGetValue(context, out var all)
        && all.All(one => assessments.Contains(one) || log.Sound(one) is null);

    /// <summary>The registers that an assessment rests on.</summary>
    public static string? Of(ILedgerReading log, string assessment) =>
        log.Sound(assessment) is { } bytes ? AssessmentFormat.DigestsOf(bytes.Span)?.Context : null;
}
