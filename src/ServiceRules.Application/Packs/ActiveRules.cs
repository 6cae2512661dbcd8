using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Waiving;
using ServiceRules.Engine;
using ServiceRules.Formats.Packs;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Packs;

/// <summary>
/// The packs and sheets that judge, asked for at each judging: whoever let others judge since, here or at another instance, is
/// followed. Safe to share between threads.
/// </summary>
/// <param name="store">Where they are kept.</param>
/// <param name="site">The registers of the site, which no activation changes, with the waivers entered beside them.</param>
public sealed class ActiveRules(IRulesStore store, SiteWaivers site)
{
    // Those in force, those before, and those that are compared or judged again by.
    private const int KeptBooks = 4;

    private readonly BoundedCache<string, Kept> books = new(KeptBooks, StringComparer.Ordinal);

    // Rules that judged before are compiled once, also after others came into force.
    private readonly Judge judge = new();
    private volatile JudgingRules? known;

    /// <summary>What judges now.</summary>
    /// <exception cref="LedgerStoreException">The store cannot be asked, or keeps what cannot be read.</exception>
    public JudgingRules Now()
    {
        var activation =
            store.InForce()
            ?? throw new LedgerStoreException(StoreTrouble.Damaged, "no rules were ever put in force here");
        var (registers, waivers) = site.Marked();
        if (
            known is { } last
            && last.Activation.Number == activation.Number
            && last.Waivers == waivers
            && ReferenceEquals(last.Site, registers)
        )
        {
            return last;
        }

        var book =
            Find(activation.Digest)
            ?? throw new LedgerStoreException(
                StoreTrouble.Damaged,
                $"the rules in force, {activation.Digest}, cannot be read"
            );
        // Of two who come at once, either may be kept: they judge alike.
        return known = new JudgingRules(activation, book, registers, new AssessRecord(book, registers, judge))
        {
            Waivers = waivers,
        };
    }

    /// <summary>Packs and sheets that are kept; null: none of this digest are, or this version does not read them.</summary>
    /// <exception cref="LedgerStoreException">The store cannot be asked.</exception>
    public RuleBook? Find(string digest) =>
        store.Book(digest) is { } bytes ? books.GetOrMake(digest, () => new Kept(Read(bytes))).Book : null;

    private static RuleBook? Read(ReadOnlyMemory<byte> bytes) =>
        RulePackFormat.Book.Read(bytes).TryGet(out var book, out _) ? book : null;

    private sealed record Kept(RuleBook? Book);
}
