using BenchmarkDotNet.Attributes;
using RulesEngine.Models;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Formats.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Benchmarks;

/// <summary>One full service of one unit, judged in several ways in one run, so that the ratios mean something.</summary>
[Config(typeof(ShortRun))]
public class JudgingOneRecord
{
    private const string Job = "full-service-125";

    private readonly RuleEngine _engine = new();
    private byte[] _bytes = [];
    private ServiceRecord _record = null!;
    private AssessmentContext _context = null!;
    private (RuleBook Book, AssessmentDigests Digests) _all;
    private (RuleBook Book, AssessmentDigests Digests) _limits;
    private AssessRecord _useCase = null!;
    private RulesEngine.RulesEngine _general = null!;

    [GlobalSetup]
    public void Prepare()
    {
        var folder = Path.Combine(AppContext.BaseDirectory, "rules");
        var loaded = RuleFolder.Load(folder);
        _bytes = File.ReadAllBytes(Path.Combine(folder, "base", "fixtures", Job + ".record.json"));
        if (!RecordFormat.Current.Read(_bytes).TryGet(out var record, out var problems))
        {
            throw new InvalidOperationException(problems.ToString());
        }

        _record = record;
        _context = ContextFreezer.Freeze(loaded.Site!, record);
        _all = (loaded.Book, new("", "", "all"));
        _limits = (OnlyLimits(loaded.Book), new("", "", "limits"));
        _useCase = new AssessRecord(loaded.Book, loaded.Site!);
        _general = GeneralEngine.Compile();
        EnsureAgreement();
    }

    [Benchmark(Baseline = true, Description = "six limit rules, plain C#")]
    public IReadOnlyList<(string Rule, Verdict Verdict)> Plain() =>
        PlainJudge.Verdicts(PlainJudge.Facts(_record, _context, _all.Book));

    [Benchmark(Description = "six limit rules, RulesEngine")]
    public IReadOnlyList<RuleResultTree> General() =>
        GeneralEngine.Judge(_general, PlainJudge.Facts(_record, _context, _all.Book));

    [Benchmark(Description = "six limit rules, RulesEngine, cold")]
    public IReadOnlyList<RuleResultTree> GeneralCold() =>
        GeneralEngine.Judge(GeneralEngine.Compile(), PlainJudge.Facts(_record, _context, _all.Book));

    [Benchmark(Description = "six limit rules, ServiceRules")]
    public Assessment Limits() => _engine.Assess(_record, _context, _limits.Book, _limits.Digests);

    [Benchmark(Description = "all rules, ServiceRules")]
    public Assessment All() => _engine.Assess(_record, _context, _all.Book, _all.Digests);

    [Benchmark(Description = "all rules, ServiceRules, cold")]
    public Assessment AllCold() => new RuleEngine().Assess(_record, _context, _all.Book, _all.Digests);

    [Benchmark(Description = "reading the JSON")]
    public bool Reading() => RecordFormat.Current.Read(_bytes).TryGet(out _, out _);

    [Benchmark(Description = "JSON to hashed assessment")]
    public AssessOutcome UseCase() => _useCase.Assess(_bytes);

    private static RuleBook OnlyLimits(RuleBook book) =>
        book with
        {
            Packs =
            [
                .. book.Packs.Select(pack =>
                    pack with
                    {
                        Rules = [.. pack.Rules.Where(rule => LimitRules.All.Contains(rule.Id.Text))],
                    }
                ),
            ],
        };

    /// <summary>A race between judges that disagree is worth nothing.</summary>
    private void EnsureAgreement()
    {
        var facts = PlainJudge.Facts(_record, _context, _all.Book);
        var findings = Limits().Findings.ToDictionary(finding => finding.Rule, finding => finding.Verdict);
        var general = GeneralEngine
            .Judge(_general, facts)
            .ToDictionary(result => result.Rule.RuleName, result => result.IsSuccess);
        foreach (var (rule, verdict) in PlainJudge.Verdicts(facts))
        {
            if (findings[rule] != verdict || general[rule] != (verdict == Verdict.Met))
            {
                throw new InvalidOperationException(
                    $"{rule}: ServiceRules says {findings[rule]}, plain C# {verdict}, RulesEngine {general[rule]}"
                );
            }
        }
    }
}
