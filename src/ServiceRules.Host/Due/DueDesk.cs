using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using ServiceRules.Application.Due;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Rows;
using ServiceRules.Domain.Timeline;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Due;

/// <summary>What falls due at a site: of its registers as they are now, of its records as they were last looked through.</summary>
internal sealed class DueDesk(
    OpenLedger ledger,
    IDueStore store,
    NoticeRecipients recipients,
    byte[] secret,
    TimeProvider clock,
    NoticeBell bell
)
{
    /// <summary>How many days ahead it is told of, unless another number is asked for.</summary>
    public const int Ahead = 30;

    /// <summary>The day at the site.</summary>
    public DateOnly Today(ServedSite site)
    {
        var now = clock.GetUtcNow();
        return DateOnly.FromDateTime(
            now.ToOffset(TimeSpan.FromMinutes(site.Registers.Zone.OffsetMinutesAt(Moment.From(now)))).DateTime
        );
    }

    public DueLook? Look(ServedSite site) => store.Look(site.Name);

    public ImmutableArray<DueThing> Of(ServedSite site, int within)
    {
        var today = Today(site);
        return
        [
            .. DueOfRegisters
                .Of(site.Registers, site.Rules.Now().Book, today)
                .Concat(store.Found(site.Name))
                .Where(thing => thing.IsWithin(today, within)),
        ];
    }

    /// <summary>
    /// Looks through the records of a site where the day, the newest record or the rules are others than last time, and has those told who are
    /// told of what falls due. How many things nobody was told of before.
    /// </summary>
    public int Go(ServedSite site, CancellationToken stop)
    {
        var told = 0;
        var rules = site.Rules.Now();
        var look = new DueLook(
            site.Name,
            Today(site),
            Newest(site),
            rules.Activation.Digest,
            clock.GetUtcNow()
        );
        if (
            store.Look(site.Name) is not { } last
            || (last.Day, last.Newest, last.Rules) != (look.Day, look.Newest, look.Rules)
        )
        {
            try
            {
                store.Keep(look, LookThroughRecords.Of(ledger, site.Registers, rules.Book, stop));
            }
            finally
            {
                // Of registers, and of records as they were last looked through, it is told all the same.
                if (!stop.IsCancellationRequested)
                {
                    told = Tell(site, look.At);
                }
            }

            return told;
        }

        return Tell(site, look.At);
    }

    // What others file at a site of theirs changes nothing here.
    private long Newest(ServedSite site) =>
        ledger
            .Rows.Records(new RecordFilter { Site = site.Name }, new RowPaging { Most = 1 })
            .Rows.FirstOrDefault()
            ?.Index
        ?? -1;

    private int Tell(ServedSite site, DateTimeOffset at)
    {
        var told = recipients.At(site.Name).OfDue;
        // Whoever is named later is told then of what falls due.
        if (told.IsEmpty)
        {
            return 0;
        }

        var count = store.Tell([
            .. Of(site, Ahead).Select(thing => new DueNotice(Name(thing), ToldDueNotice.Of(thing, at), told)),
        ]);
        if (count > 0)
        {
            bell.Ring();
        }

        return count;
    }

    // Whose training it is can be found out of it by nobody who has the database alone.
    private byte[] Name(DueThing thing) => HMACSHA256.HashData(secret, Encoding.UTF8.GetBytes(thing.ToldAs));
}
