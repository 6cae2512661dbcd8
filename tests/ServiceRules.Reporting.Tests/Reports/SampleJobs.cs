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
using ServiceRules.Rules.Model;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Reports;

/// <summary>Sample records judged by the shipped rules with the demo site's registers.</summary>
internal static class SampleJobs
{
    private static readonly Lazy<LoadedRules> Shipped = new(() =>
        RuleFolder.Load(ReferenceFiles.InRepository("rules"))
    );

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

    public static Assessed Judge(ServiceRecord record) => Judge(record, DemoSite);

    public static Assessed Judge(ServiceRecord record, SiteRegisters site)
    {
        var context = ContextFreezer.Freeze(site, record);
        var recordFile = Canonical(RecordFormat.Current, record);
        var contextFile = Canonical(ContextFormat.Current, context);
        var rulesFile = Canonical(RulePackFormat.Book, DemoBook);
        var digests = new AssessmentDigests(
            recordFile.Hash.ToString(),
            contextFile.Hash.ToString(),
            rulesFile.Hash.ToString()
        );
        var assessment = Engine.Assess(record, context, DemoBook, digests);
        var evidence = new EvidenceFiles(
            recordFile,
            contextFile,
            rulesFile,
            Canonical(AssessmentFormat.Current, assessment)
        );
        return new Assessed(record, context, DemoBook, assessment, evidence);
    }

    public static SiteRegisters DemoSite => Shipped.Value.Site!;

    public static RuleBook DemoBook => Shipped.Value.Book;

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
