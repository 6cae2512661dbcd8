using System.Collections.Immutable;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Waiving;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>Holds the table of waivers that were entered beside the registers against their entries and acts.</summary>
/// <param name="filed">The entries of waivers, by their places.</param>
/// <param name="acts">What the acts of the log say, by their places; those that were erased or are lost are not among them.</param>
/// <param name="size">How many entries the log has; what was filed since is left to the next time.</param>
internal sealed class VerifyWaivers(
    IReadOnlyDictionary<long, FiledEntry> filed,
    IReadOnlyDictionary<long, LoggedAct> acts,
    long size
)
{
    private readonly ImmutableArray<LedgerFault>.Builder faults = ImmutableArray.CreateBuilder<LedgerFault>();

    public ImmutableArray<LedgerFault> Verify(IEnumerable<WaiverRow> all)
    {
        var rows = all.Where(row => row.Entry < size).ToList();
        foreach (var row in rows)
        {
            if (
                !filed.TryGetValue(row.Entry, out var entry)
                || entry.Entry.Content != row.Content.ToString()
                || entry.Entry.Subject != row.Subject
                || Stamp(entry.Entry.At) != Stamp(row.At)
            )
            {
                Tell(
                    Named(row),
                    $"it is said to be {LedgerWords.Entry(row.Entry)}, and no such waiver stands there"
                );
            }

            // The act right behind it names the site; one that was erased or is lost is told of elsewhere.
            if (
                acts.TryGetValue(row.Entry + 1, out var act)
                && act.What == AccountAct.WaiverEntered
                && act.Detail != row.Site
            )
            {
                Tell(Named(row), $"it is said to count at `{row.Site}`, and was entered at another site");
            }

            if (!(row.WithdrawnBy >= size) && !IsWithdrawnAsSaid(row))
            {
                Tell(Named(row), "it is said to be withdrawn, and no act of the log withdrew it so");
            }
        }

        var entered = rows.Select(row => row.Entry).ToHashSet();
        var withdrawn = rows.Select(row => row.WithdrawnBy).OfType<long>().ToHashSet();
        foreach (var (index, act) in acts)
        {
            // A waiver that came by this way has its act right behind it.
            if (act.What == AccountAct.WaiverEntered && !entered.Contains(index - 1))
            {
                Tell(
                    LedgerWords.Entry(index - 1),
                    "a waiver was entered, and the table of waivers has no row of it"
                );
            }
            else if (act.What == AccountAct.WaiverWithdrawn && !withdrawn.Contains(index))
            {
                Tell(
                    LedgerWords.Entry(index),
                    "a waiver was withdrawn, and the table of waivers does not say so"
                );
            }
        }

        return faults.ToImmutable();
    }

    private bool IsWithdrawnAsSaid(WaiverRow row) =>
        (row.WithdrawnAt, row.WithdrawnBy) switch
        {
            (null, null) => true,
            ({ } at, { } index) => acts.TryGetValue(index, out var act)
                && act.What == AccountAct.WaiverWithdrawn
                && act.About == AccountAct.OfWaiver(row.Subject)
                && Stamp(act.At) == Stamp(at),
            _ => false,
        };

    private static long Stamp(DateTimeOffset at) => at.ToUnixTimeMilliseconds();

    private static string Named(WaiverRow row) => $"waiver {LedgerWords.Number(row.Number)} of the table";

    private void Tell(string where, string told) => faults.Add(new(LedgerFaultCode.Waiver, where, told));
}
