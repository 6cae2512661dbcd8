using System.Collections.Immutable;
using System.Data.Common;
using ServiceRules.Application.Due;
using ServiceRules.Application.Notices;

namespace ServiceRules.Storage.Sql;

/// <summary>What falls due, each question on a connection of its own.</summary>
internal sealed class SqlStoredDue(SqlLedgerStore store) : IDueStore
{
    private static readonly int FirstDay = DateOnly.FromDateTime(DateTime.UnixEpoch).DayNumber;

    public DueLook? Look(string site) =>
        store.OnConnection(connection =>
            connection
                .Rows(
                    "SELECT site, day, newest, rules, looked_at FROM due_look WHERE site = @site",
                    row => new DueLook(
                        row.Text(0),
                        Day(row.Number(1)),
                        row.Number(2),
                        row.Text(3),
                        DateTimeOffset.FromUnixTimeMilliseconds(row.Number(4))
                    ),
                    ("@site", site)
                )
                .SingleOrDefault()
        );

    public ImmutableArray<DueThing> Found(string site) =>
        [
            .. store.OnConnection(connection =>
                connection.Rows(
                    """
                    SELECT site, kind, subject, due_day, source, about, part, machine, record, forecast, reached
                    FROM due_found WHERE site = @site ORDER BY ordinal
                    """,
                    row => new DueThing(
                        row.Text(0),
                        (DueKind)row.Number(1),
                        row.Text(2),
                        Day(row.Number(3)),
                        (DueSource)row.Number(4)
                    )
                    {
                        About = row.Text(5),
                        Part = row.TextOrNone(6),
                        Machine = row.TextOrNone(7),
                        Record = row.TextOrNone(8),
                        IsForecast = row.Number(9) == 1,
                        IsReached = row.Number(10) == 1,
                    },
                    ("@site", site)
                )
            ),
        ];

    public void Keep(DueLook look, IEnumerable<DueThing> found)
    {
        ArgumentNullException.ThrowIfNull(look);
        ArgumentNullException.ThrowIfNull(found);
        _ = store.WriteBeside(connection =>
        {
            // First, since it locks the row: of two who looked at once, the later one's is whole.
            _ = connection.Execute(
                """
                INSERT INTO due_look (site, day, newest, rules, looked_at) VALUES (@site, @day, @newest, @rules, @at)
                ON CONFLICT (site) DO UPDATE
                SET day = excluded.day, newest = excluded.newest, rules = excluded.rules, looked_at = excluded.looked_at
                """,
                ("@site", look.Site),
                ("@day", Number(look.Day)),
                ("@newest", look.Newest),
                ("@rules", look.Rules),
                ("@at", look.At.ToUnixTimeMilliseconds())
            );
            _ = connection.Execute("DELETE FROM due_found WHERE site = @site", ("@site", look.Site));
            var ordinal = 0L;
            foreach (var thing in found)
            {
                Insert(connection, look.Site, ordinal++, thing);
            }

            return ordinal;
        });
    }

    public int Tell(IEnumerable<DueNotice> notices)
    {
        ArgumentNullException.ThrowIfNull(notices);
        return store.WriteBeside(connection => notices.Count(notice => Tell(connection, notice)));
    }

    public ToldDueNotice? Told(long number) =>
        store.OnConnection(connection =>
            connection
                .Rows(
                    "SELECT site, kind, subject, due_day, told_at FROM due_notice WHERE number = @number",
                    row => new ToldDueNotice(
                        row.Text(0),
                        (DueKind)row.Number(1),
                        row.TextOrNone(2),
                        Day(row.Number(3)),
                        DateTimeOffset.FromUnixTimeMilliseconds(row.Number(4))
                    ),
                    ("@number", number)
                )
                .SingleOrDefault()
        );

    private static bool Tell(DbConnection connection, DueNotice notice)
    {
        // Of two instances that find the same, the second waits here for the first, and then tells nobody.
        var numbers = connection.Rows(
            """
            INSERT INTO due_notice (thing, site, kind, subject, due_day, told_at)
            VALUES (@thing, @site, @kind, @subject, @due, @at) ON CONFLICT (thing) DO NOTHING RETURNING number
            """,
            row => row.Number(0),
            ("@thing", notice.Thing.ToArray()),
            ("@site", notice.Told.Site),
            ("@kind", (long)notice.Told.Kind),
            ("@subject", notice.Told.Subject),
            ("@due", Number(notice.Told.Due)),
            ("@at", notice.Told.At.ToUnixTimeMilliseconds())
        );
        foreach (var number in numbers)
        {
            foreach (var recipient in notice.Recipients)
            {
                SqlStoredNotices.Owe(
                    connection,
                    Notice.OfDue(number, recipient, notice.Told.At) with
                    {
                        Site = notice.Told.Site,
                    }
                );
            }
        }

        return numbers.Count > 0;
    }

    private static void Insert(DbConnection connection, string site, long ordinal, DueThing thing) =>
        _ = connection.Execute(
            """
            INSERT INTO due_found (site, ordinal, kind, subject, about, due_day, source, part, machine, record, forecast, reached)
            VALUES (@site, @ordinal, @kind, @subject, @about, @due, @source, @part, @machine, @record, @forecast, @reached)
            """,
            ("@site", site),
            ("@ordinal", ordinal),
            ("@kind", (long)thing.Kind),
            ("@subject", thing.Subject),
            ("@about", thing.About),
            ("@due", Number(thing.Due)),
            ("@source", (long)thing.Source),
            ("@part", thing.Part),
            ("@machine", thing.Machine),
            ("@record", thing.Record),
            ("@forecast", thing.IsForecast ? 1L : 0L),
            ("@reached", thing.IsReached ? 1L : 0L)
        );

    private static long Number(DateOnly day) => day.DayNumber - FirstDay;

    private static DateOnly Day(long number) => DateOnly.FromDayNumber((int)number + FirstDay);
}
