using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage.Tests.Sqlite;

/// <summary>What is done to the database file behind the product's back.</summary>
public sealed class SpoiltDatabaseTests : IDisposable
{
    private readonly Drawer _drawer = new();

    public void Dispose() => _drawer.Dispose();

    [Fact]
    public void Open_OlderCopyUnderNewerCheckpoints_IsRefused()
    {
        _drawer.File(2);
        File.Copy(_drawer.Database, _drawer.At("older.db"));
        _drawer.File(3, 3);
        File.Copy(_drawer.At("older.db"), _drawer.Database, overwrite: true);

        using var folder = _drawer.Open();
        var refused = Assert.IsType<LedgerOpening.Refused>(_drawer.Opening(folder));

        Assert.Contains(
            "it says size 5, here it is 2",
            refused.Faults.Single().Told,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Open_DatabaseGone_IsRefused()
    {
        _drawer.File(2);
        File.Delete(_drawer.Database);

        Assert.Equal([LedgerFaultCode.Shorter], _drawer.CodesAtOpening());
    }

    [Theory]
    [InlineData("DELETE FROM entry WHERE entry_index = 3", "head shorter-history")]
    [InlineData("DELETE FROM entry WHERE entry_index = 1", "entry-missing head shorter-history")]
    [InlineData(
        "UPDATE entry SET bytes = CAST(replace(CAST(bytes AS TEXT), 'SO-2', 'SO-9') AS BLOB) WHERE entry_index = 1",
        "different-history head"
    )]
    [InlineData("UPDATE head SET size = 3", "head")]
    [InlineData("UPDATE head SET root = (SELECT root FROM head) || 'x'", "head")]
    [InlineData("DELETE FROM head", "head")]
    [InlineData("UPDATE head SET note = (SELECT note FROM checkpoint WHERE size = 2)", "head")]
    [InlineData("UPDATE head SET note = replace(note, 'servicerules', 'somebody')", "checkpoint")]
    public void Open_RowsChanged_IsRefused(string sql, string codes)
    {
        _drawer.File(4);

        _drawer.Spoil(sql);

        Assert.Equal(codes, string.Join(' ', _drawer.CodesAtOpening().Order(StringComparer.Ordinal)));
        Assert.NotEmpty(_drawer.Verify().Faults);
    }

    [Theory]
    [InlineData(
        "UPDATE content SET bytes = CAST(replace(CAST(bytes AS TEXT), '3.8 mm', '3.9 mm') AS BLOB)",
        LedgerFaultCode.ContentChanged,
        4
    )]
    [InlineData("DELETE FROM content", LedgerFaultCode.ContentMissing, 4)]
    [InlineData(
        "UPDATE checkpoint SET size = size + 10, note = 'x' WHERE size = 2",
        LedgerFaultCode.Checkpoint,
        1
    )]
    public void Verify_RowsChangedBesideTheEntries_NamesEach(string sql, string code, int count)
    {
        _drawer.File(4);

        _drawer.Spoil(sql);

        var faults = _drawer.Verify().Faults;
        Assert.Equal(count, faults.Length);
        Assert.All(faults, fault => Assert.Equal(code, fault.Code));
    }

    [Fact]
    public void Open_OneBitOfTheFileFlipped_IsNoticedOrChangesNothingThatIsTold()
    {
        _drawer.File(4);
        var sound = File.ReadAllBytes(_drawer.Database);
        var told = Told();
        // Pages are mostly room to grow, and that is zero.
        var used = Enumerable.Range(0, sound.Length).Where(at => sound[at] != 0).ToList();
        var random = new Random(20260413);
        var noticed = 0;

        for (var round = 0; round < 100; round++)
        {
            var spoilt = (byte[])sound.Clone();
            spoilt[used[random.Next(used.Count)]] ^= (byte)(1 << random.Next(8));
            File.WriteAllBytes(_drawer.Database, spoilt);
            if (IsNoticed())
            {
                noticed++;
            }
            else
            {
                Assert.Equal(told, Told());
            }
        }

        Assert.InRange(noticed, 10, 100);
    }

    private bool IsNoticed()
    {
        try
        {
            return _drawer.CodesAtOpening().Count > 0 || !_drawer.Verify().Faults.IsEmpty;
        }
        catch (LedgerStoreException)
        {
            return true;
        }
    }

    private IEnumerable<string> Told()
    {
        using var folder = _drawer.Open();
        var log = folder.Store;
        return
        [
            .. log.Entries(0).Select(entry => Convert.ToHexString(entry.Bytes.Span)),
            .. log.Contents().Select(hash => Convert.ToHexString(log.Content(hash)!.Value.Span)),
        ];
    }
}
