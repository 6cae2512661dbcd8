using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Application.Tests.Demo;
using ServiceRules.Application.Tests.Ledger;
using ServiceRules.Domain.Records;
using ServiceRules.Evidence;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Application.Tests.Submitting;

public sealed class StoredOthersTests
{
    private static readonly SiteRegisters Site = DemoSeasons.Site;

    /// <summary>Two seasons, each job told what all others show, and what those show that the rows lead to.</summary>
    [Fact]
    public void Near_EachJobOfTheDemo_TellsWhatAllRecordsTell()
    {
        var records = DemoSeasons.Jobs.Select(job => job.Record).SelectMany(WithOthersAtOnce).ToList();
        var all = WorkElsewhere.Of(records, Site.Zone);
        var (others, now) = (new StoredOthers(Site, isOfSeveral: false), Stored(records));
        var most = 0;

        foreach (var record in records)
        {
            var own = WorkElsewhere.Read(record, Site.Zone);
            var near = others.Near(own, now, []);
            most = Math.Max(most, near.Length);

            Assert.Equal(
                Written(record, all),
                Written(record, WorkElsewhere.Of(near.Select(one => one.Told).Append(own), Site.Zone))
            );
        }

        Assert.Contains(records, record => !all.OtherRecords(record).IsEmpty);
        Assert.Contains(records, record => !all.Beside(record).IsEmpty);
        // Few of the whole: what is looked at does not grow with the log.
        Assert.InRange(most, 1, records.Count / 3);
    }

    // In the demo nobody's jobs meet: some of them are told twice more, at the same machine and at another.
    private static IEnumerable<ServiceRecord> WithOthersAtOnce(ServiceRecord record, int index)
    {
        yield return record;
        if (index % 7 == 0)
        {
            yield return record with
            {
                Id = new($"{record.Id}-b"),
            };
        }

        if (index % 11 == 0)
        {
            yield return record with
            {
                Id = new($"{record.Id}-m"),
                Machine = record.Machine with
                {
                    Id = new(record.Machine.Id.Text == "M-01" ? "M-02" : "M-01"),
                },
            };
        }
    }

    private static string Written(ServiceRecord record, WorkElsewhere work) =>
        System.Text.Encoding.UTF8.GetString(
            ContextFormat.Current.Write(ContextFreezer.Freeze(Site, record, work))
        );

    private static StoredNow Stored(IEnumerable<ServiceRecord> records)
    {
        var store = new MemoryLedger();
        foreach (var record in records)
        {
            var bytes = RecordFormat.Current.Write(record);
            var hash = ContentHash.Of(bytes);
            store.Keep(hash, bytes);
            using var document = System.Text.Json.JsonDocument.Parse(bytes);
            var row = new RecordRow(
                store.MemoryRows.All.Count,
                record.Id.Text,
                record.Machine.Id.Text,
                record.Date,
                default,
                hash.ToString()
            )
            {
                State = "signed-off",
                IsNewest = true,
                Site = Site.Name,
            };
            store.Rows.Put(
                new(row, [], []) { Shown = ShownRows.Of(document.RootElement, row.Machine, row.Day) }
            );
        }

        return new StoredNow(store, store.MemoryRows);
    }
}
