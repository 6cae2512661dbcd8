using System.Diagnostics.CodeAnalysis;
using System.Text;
using System.Text.Json.Nodes;
using BenchmarkDotNet.Attributes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Storage;

namespace ServiceRules.Benchmarks;

/// <summary>
/// Records that were judged and are not in the ledger yet, filed in a SQLite file: one to a transaction, or several, each
/// transaction with a sync of the disk and a checkpoint kept outside.
/// </summary>
[Config(typeof(ShortRun))]
[SuppressMessage("Design", "CA1001", Justification = "The runner cleans up by the method that says so.")]
public class FilingTogether
{
    private const int Records = 64;

    private readonly List<Assessed> _judged = [];
    private string _root = "";
    private string _fixture = "";
    private AssessRecord _judging = null!;
    private LedgerFolder _folder = null!;
    private OpenLedger _ledger = null!;
    private int _jobs;

    [Params(1, 8, 64)]
    public int Together { get; set; }

    [Params("height-check", "full-service-125")]
    public string Job { get; set; } = "";

    [GlobalSetup]
    public void Prepare()
    {
        var rules = Path.Combine(AppContext.BaseDirectory, "rules");
        var loaded = RuleFolder.Load(rules);
        _fixture = File.ReadAllText(Path.Combine(rules, "base", "fixtures", Job + ".record.json"));
        _judging = new AssessRecord(loaded.Book, loaded.Site!);
        _root = Directory.CreateTempSubdirectory("servicerules-filing-").FullName;
        _folder = LedgerFolder.OpenOrCreate(Path.Combine(_root, "ledger"));
        var shelf = new CheckpointFolder(Path.Combine(_root, "checkpoints"));
        _ledger = OpenLedger.Open(_folder.Store, shelf, _folder.Signer, TimeProvider.System) switch
        {
            LedgerOpening.Opened opened => opened.Ledger,
            _ => throw new InvalidOperationException("a new ledger was refused"),
        };
    }

    [IterationSetup]
    public void Judge()
    {
        _judged.Clear();
        while (_judged.Count < Records)
        {
            var record = JsonNode.Parse(_fixture)!;
            _jobs++;
            record["id"] = $"J-{_jobs}";
            _judged.Add(
                _judging.Assess(Encoding.UTF8.GetBytes(record.ToJsonString())) is AssessOutcome.Judged judged
                    ? judged.Assessed
                    : throw new InvalidOperationException("a fixture was refused")
            );
        }
    }

    [GlobalCleanup]
    public void Tell()
    {
        var bytes = Directory
            .EnumerateFiles(Path.Combine(_root, "ledger"), "ledger.db*")
            .Sum(file => new FileInfo(file).Length);
        Console.WriteLine($"// {Job}: {bytes / _jobs} bytes of database for each of {_jobs} records");
        _folder.Dispose();
        Directory.Delete(_root, recursive: true);
    }

    [Benchmark(Description = "filing", OperationsPerInvoke = Records)]
    public void Filing()
    {
        foreach (var some in _judged.Chunk(Together))
        {
            var attempts = _ledger.FileTogether([
                .. some.Select(
                    Func<ILedgerWriting, FilingPlan> (one) => log => FileRecord.Plan(log, one, null, null)
                ),
            ]);
            if (
                !attempts.All(one =>
                    one is FilingAttempt.Came { Outcome: FilingOutcome.Filed { IsNew: true } }
                )
            )
            {
                throw new InvalidOperationException("something was not filed");
            }
        }
    }
}
