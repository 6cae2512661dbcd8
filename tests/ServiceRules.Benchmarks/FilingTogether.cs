using System.Diagnostics.CodeAnalysis;
using System.Text;
using System.Text.Json.Nodes;
using BenchmarkDotNet.Attributes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Application.Submitting;
using ServiceRules.Storage;

namespace ServiceRules.Benchmarks;

/// <summary>Sixty-four records that were not there, submitted at once: judged and filed, few or many to a transaction.</summary>
[Config(typeof(ShortRun))]
[SuppressMessage("Design", "CA1001", Justification = "The runner cleans up by the method that says so.")]
public class FilingTogether
{
    private const int Submitters = 64;

    private string _root = "";
    private string _fixture = "";
    private AssessRecord _judging = null!;
    private LedgerFolder _folder = null!;
    private GroupFiling _filing = null!;
    private SubmitRecord _submit = null!;
    private int _jobs;

    [Params(1, 8, 64)]
    public int Together { get; set; }

    [GlobalSetup]
    public void Prepare()
    {
        var rules = Path.Combine(AppContext.BaseDirectory, "rules");
        var loaded = RuleFolder.Load(rules);
        _fixture = File.ReadAllText(Path.Combine(rules, "base", "fixtures", "height-check.record.json"));
        _judging = new AssessRecord(loaded.Book, loaded.Site!);
        _root = Directory.CreateTempSubdirectory("servicerules-filing-").FullName;
        _folder = LedgerFolder.OpenOrCreate(Path.Combine(_root, "ledger"));
        var shelf = new CheckpointFolder(Path.Combine(_root, "checkpoints"));
        var ledger = OpenLedger.Open(_folder.Store, shelf, _folder.Signer, TimeProvider.System) switch
        {
            LedgerOpening.Opened opened => opened.Ledger,
            _ => throw new InvalidOperationException("a new ledger was refused"),
        };
        _filing = new GroupFiling(ledger, togetherMost: Together);
        _submit = new SubmitRecord(_judging, ledger, _filing);
    }

    [GlobalCleanup]
    public void Remove()
    {
        _filing.DisposeAsync().AsTask().GetAwaiter().GetResult();
        _folder.Dispose();
        Directory.Delete(_root, recursive: true);
    }

    [Benchmark(Description = "submitting", OperationsPerInvoke = Submitters)]
    public async Task Submitting()
    {
        var outcomes = await Task.WhenAll(
            Enumerable.Range(0, Submitters).Select(_ => Task.Run(() => _submit.SubmitAsync(new(Next()))))
        );
        if (!outcomes.All(outcome => outcome is SubmissionOutcome.Stored))
        {
            throw new InvalidOperationException("something was not stored");
        }
    }

    [Benchmark(Description = "judging alone", OperationsPerInvoke = Submitters)]
    public async Task Judging() =>
        await Task.WhenAll(
            Enumerable.Range(0, Submitters).Select(_ => Task.Run(() => _judging.Assess(Next())))
        );

    private byte[] Next()
    {
        var record = JsonNode.Parse(_fixture)!;
        record["id"] = $"J-{Interlocked.Increment(ref _jobs)}";
        return Encoding.UTF8.GetBytes(record.ToJsonString());
    }
}
