using ServiceRules.Application.Ledger;
using ServiceRules.Application.Reports;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>What the log tells whole, however long it is and whoever files meanwhile.</summary>
public abstract class LogContract : DrawerContract
{
    private protected LogContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableFact]
    public void Entries_MoreThanOnePage_ComeInOrderWithoutGap()
    {
        using var folder = Drawer.Open();
        folder.Store.Write(writing =>
        {
            for (var at = 0; at < 2005; at++)
            {
                writing.Append(new StoredEntry(at, "{}"u8.ToArray()));
                writing.Keep(ContentHash.Of(BitConverter.GetBytes(at)), "x"u8.ToArray());
            }

            return true;
        });

        Assert.Equal(
            Enumerable.Range(3, 2002).Select(at => (long)at),
            folder.Store.Entries(3).Select(one => one.Index)
        );
        Assert.Equal(2005, folder.Store.Contents().Distinct().Count());
    }

    [SkippableFact]
    public async Task Proofs_WhileOthersFile_AreAllUnderOneCheckpoint()
    {
        await using var counter = new Counter(Drawer);
        _ = await counter.SubmitAsync(Jobs.Job("J-1"));
        var basis = Assert.IsType<ReportBasis.Judged>(counter.Ledger.Read(log => ReportBasis.Of(log, "J-1")));

        var filing = Task.Run(async () =>
        {
            for (var number = 2; number < 30; number++)
            {
                _ = await counter.SubmitAsync(Jobs.Job($"J-{number}"));
            }
        });
        var told = (
            await Task.WhenAll(
                Enumerable
                    .Range(0, 3)
                    .Select(_ =>
                        Task.Run(() =>
                        {
                            var own = new List<FilingProofs>();
                            while (!filing.IsCompleted)
                            {
                                own.Add(counter.Ledger.Proofs(basis.Record, basis.Assessment));
                            }

                            return own;
                        })
                    )
            )
        ).SelectMany(own => own);
        await filing;
        Assert.All(
            told,
            proofs => Assert.Equal(Checkpoint(proofs.RecordProof), Checkpoint(proofs.AssessmentProof))
        );
        Assert.True(told.Select(proofs => Checkpoint(proofs.RecordProof)).Distinct().Count() > 1);
    }

    // What stands after the hashes of a proof (c2sp.org/tlog-proof).
    private static string Checkpoint(string proof) =>
        proof[proof.IndexOf("\n\n", StringComparison.Ordinal)..];
}
