using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Tests.Ledger;

public sealed class MendContentsTests : IDisposable
{
    private const int Many = 30;

    private readonly Desk _desk = new();

    public void Dispose() => _desk.Dispose();

    /// <summary>Filings wait while contents are put back, and a log may be long.</summary>
    [Fact]
    public void Mend_OfMoreThanGoesAtOnce_GoesThroughTheLogNoOftenerThanForOne()
    {
        for (var job = 0; job < Many; job++)
        {
            _desk.File(Desk.Judged(id: $"J-{job}"));
        }

        var copy = _desk.Store.Copy();
        var named = _desk
            .Store.Stored.Select(stored =>
            {
                Assert.True(EntryReading.TryRead(stored, out var entry, out var why), why);
                return entry.Entry.Content;
            })
            .ToList();

        var forOne = ReadsFor(copy, named.Take(1));
        var forAll = ReadsFor(copy, named);

        Assert.Equal(forOne, forAll);
        Assert.Empty(_desk.Verify().Faults);
    }

    private int ReadsFor(MemoryLedger copy, IEnumerable<string> lost)
    {
        var gone = lost.Distinct(StringComparer.Ordinal).Count(_desk.Store.Kept.Remove);
        var ledger = _desk.Open();
        var before = _desk.Store.ReadsFromTheStart;

        var mended = new MendContents(ledger).Mend(copy);

        Assert.Equal(gone, mended.PutBack.Length);
        Assert.Empty(mended.StillLost);
        return _desk.Store.ReadsFromTheStart - before;
    }
}
