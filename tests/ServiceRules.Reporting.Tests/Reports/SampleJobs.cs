using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.Sheets;
using ServiceRules.Rules.Model;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Reports;

/// <summary>Sample records judged by the shipped rules with the demo site's registers.</summary>
internal static class SampleJobs
{
    private static readonly Lazy<RuleBook> Book = new(ReadBook);
    private static readonly Lazy<SiteRegisters> Site = new(ReadSite);
    private static readonly RuleEngine Engine = new();

    public static Assessed FullService => Judge(Read("full-service"));

    public static Assessed HeightCheckOfTwelve => Judge(Read("height-check-twelve"));

    public static ServiceRecord Read(string name) =>
        Value(
            RecordFormat.Current,
            ReferenceFiles.InRepository(
                "tests",
                "ServiceRules.Reporting.Tests",
                "Reports",
                "Samples",
                $"{name}.record.json"
            )
        );

    public static Assessed Judge(ServiceRecord record)
    {
        var context = ContextFreezer.Freeze(Site.Value, record);
        var recordFile = Canonical(RecordFormat.Current, record);
        var contextFile = Canonical(ContextFormat.Current, context);
        var rulesFile = Canonical(RulePackFormat.Book, Book.Value);
        var digests = new AssessmentDigests(
            recordFile.Hash.ToString(),
            contextFile.Hash.ToString(),
            rulesFile.Hash.ToString()
        );
        var assessment = Engine.Assess(record, context, Book.Value, digests);
        var evidence = new EvidenceFiles(
            recordFile,
            contextFile,
            rulesFile,
            Canonical(AssessmentFormat.Current, assessment)
        );
        return new Assessed(record, context, Book.Value, assessment, evidence);
    }

    private static RuleBook ReadBook()
    {
        var head = Value(RulePackFormat.Head, ReferenceFiles.InRepository("rules", "base", "pack.json"));
        var rules = Files("*.rules.json", "rules", "base")
            .SelectMany(path => Value(RulePackFormat.Rules, path).Rules);
        var sheets = Files("*.sheet.json", "rules", "sheets")
            .Select(path => Value(LimitSheetFormat.Current, path));
        return new RuleBook([head with { Rules = [.. rules] }], [.. sheets]);
    }

    public static SiteRegisters DemoSite => Site.Value;

    public static RuleBook DemoBook => Book.Value;

    private static SiteRegisters ReadSite()
    {
        string[] site = ["rules", "site-alder-reach"];
        var own = Value(SiteFormat.Site, ReferenceFiles.InRepository([.. site, "site.json"]));
        var registers = Value(SiteFormat.Registers, ReferenceFiles.InRepository([.. site, "registers.json"]));
        return new SiteRegisters
        {
            Name = own.Name,
            Zone = own.Zone,
            Jurisdictions = own.Jurisdictions,
            People = registers.People,
            Locks = registers.Locks,
            Waivers = registers.Waivers,
            Machines = registers.Machines,
            LockStyle = own.LockStyle,
            RemovalException = own.RemovalException,
            Procedures = All(SiteFormat.Procedure, [.. site, "procedures"]),
            SettingOrders = All(SettingOrderFormat.Current, [.. site, "setting-orders"]),
        };
    }

    private static ImmutableArray<T> All<T>(DocumentFormat<T> format, string[] folder)
        where T : notnull => [.. Files("*.json", folder).Select(path => Value(format, path))];

    private static IEnumerable<string> Files(string pattern, params string[] folder) =>
        Directory.EnumerateFiles(ReferenceFiles.InRepository(folder), pattern).Order(StringComparer.Ordinal);

    private static T Value<T>(DocumentFormat<T> format, string path)
        where T : notnull =>
        format.Read(File.ReadAllBytes(path)).TryGet(out var value, out var problems)
            ? value
            : throw new InvalidOperationException(
                $"{path}: {string.Join("; ", problems.Told.Select(problem => problem.ToString()))}"
            );

    private static CanonicalDocument Canonical<T>(DocumentFormat<T> format, T value)
        where T : notnull =>
        CanonicalJson.Canonicalise(format.Write(value)).TryGet(out var document, out var refusal)
            ? document
            : throw new InvalidOperationException(refusal.ToString());
}
