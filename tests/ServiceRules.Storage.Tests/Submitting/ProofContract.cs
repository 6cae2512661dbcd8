using ServiceRules.Application.Ledger;
using ServiceRules.Application.Reports;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>What is proved of a record while others are filed.</summary>
public abstract class ProofContract : IAsyncLifetime
{
    private readonly Lazy<Drawer> _drawer;

    private protected ProofContract(Func<Drawer> drawer) => _drawer = new(drawer);

    private Drawer Drawer => _drawer.Value;

    public Task InitializeAsync() => Task.CompletedTask;

    public Task DisposeAsync()
    {
        if (_drawer.IsValueCreated)
        {
            _drawer.Value.Dispose();
        }

        return Task.CompletedTask;
    }

    [SkippableFact]
    public async Task Proofs_WhileOthersFile_AreAllUnderOneCheckpoint()
    {
        await using var counter = new Counter(Drawer);
        _ = await counter.SubmitAsync(Jobs.Job("J-1"));
        var basis = Assert.IsType<ReportBasis.Judged>(counter.Ledger.Read(log => ReportBasis.Of(log, "J-1")));

        var filing = Task.Run(async () =>
        {
            for (var number = 2; number < 60; number++)
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
