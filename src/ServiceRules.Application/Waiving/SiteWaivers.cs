using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Application.Waiving;

/// <summary>
/// The registers of a site with the waivers that were entered beside them, asked for at each judging: whoever enters or withdraws
/// one, here or at another instance, is followed. Safe to share between threads.
/// </summary>
public sealed class SiteWaivers(IWaiverReading store, SiteRegisters site)
{
    private volatile Known? known;

    /// <summary>The registers with the waivers that count now; the same object for as long as nothing changes.</summary>
    /// <exception cref="LedgerStoreException">The store cannot be asked.</exception>
    public SiteRegisters Now() => Marked().Site;

    /// <summary>The same, with what tells whether others count since.</summary>
    /// <exception cref="LedgerStoreException">The store cannot be asked.</exception>
    internal (SiteRegisters Site, WaiverMark Mark) Marked()
    {
        var mark = store.Mark(site.Name);
        if (known is { } last && last.Mark == mark)
        {
            return (last.Site, mark);
        }

        var entered = store.Of(site.Name).Select(Counting).OfType<Waiver>().ToImmutableArray();
        var next = new Known(
            mark,
            entered.IsEmpty ? site : site with { Waivers = [.. site.Waivers, .. entered] }
        );
        // Of two who come at once, either may be kept: they say the same. One entered between the two questions is looked for again.
        known = next;
        return (next.Site, mark);
    }

    /// <summary>What a kept one says; null: it counts no more.</summary>
    /// <exception cref="LedgerStoreException">It is lost: nothing is judged as if it never was.</exception>
    public static Waiver? Counting(KeptWaiver kept)
    {
        ArgumentNullException.ThrowIfNull(kept);
        return kept.WithdrawnAt is null ? Read(kept) : null;
    }

    /// <summary>What a kept one says or said; null: it was erased, or is withdrawn and lost.</summary>
    /// <exception cref="LedgerStoreException">It is lost, and was not withdrawn.</exception>
    public static Waiver? Read(KeptWaiver kept)
    {
        ArgumentNullException.ThrowIfNull(kept);
        if (kept is { IsLost: true, WithdrawnAt: null })
        {
            var which = $"waiver {LedgerWords.Number(kept.Number)}, {LedgerWords.Entry(kept.Entry)}";
            throw new LedgerStoreException(
                StoreTrouble.Damaged,
                $"the content of {which} is lost, and no erasure removed it"
            )
            {
                Place = which,
            };
        }

        return kept.Content is { } bytes && WaiverFormat.Current.Read(bytes).TryGet(out var waiver, out _)
            ? waiver
            : null;
    }

    private sealed record Known(WaiverMark Mark, SiteRegisters Site);
}
