using System.Text;
using System.Text.Json;
using FsCheck.Xunit;
using Json.Schema;
using ServiceRules.Formats.Imports;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.Sheets;
using ServiceRules.Formats.Tests.Json;
using ServiceRules.TestKit;

namespace ServiceRules.Formats.Tests.Documents;

/// <summary>
/// The schemas in rules/schema are what the readers obey. `SERVICERULES_ACCEPT=1 dotnet test` writes them anew; read
/// the difference before committing it.
/// </summary>
public sealed class PublishedSchemaTests
{
    private static readonly string[] BeyondSchema =
    [
        ProblemCode.DanglingReference,
        ProblemCode.DuplicateIdentity,
        ProblemCode.Contradiction,
        ProblemCode.Unreadable,
    ];

    private static readonly IReadOnlyList<(string File, string Text)> All = PublishedSchemas.Of(
        WrittenSummary.Of
    );

    private static readonly Dictionary<string, JsonSchema> Built = All.ToDictionary(
        schema => schema.File,
        schema => JsonSchema.FromText(schema.Text),
        StringComparer.Ordinal
    );

    public static TheoryData<string> Files() => [.. All.Select(schema => schema.File)];

    [Theory]
    [MemberData(nameof(Files))]
    public void Published_SchemaInTheRepository_IsCurrent(string file)
    {
        string text = All.Single(schema => schema.File == file).Text;
        string path = Path.Combine(ReferenceFiles.Root, "rules", "schema", file);
        if (TestRun.IsAccepting)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllText(path, text);
        }

        Assert.True(File.Exists(path), $"rules/schema/{file} is missing");
        Assert.Equal(File.ReadAllText(path), text);
    }

    [Theory]
    [MemberData(nameof(Files))]
    public void Published_Schema_IsValid202012(string file)
    {
        using JsonDocument schema = JsonDocument.Parse(All.Single(one => one.File == file).Text);
        Assert.True(MetaSchemas.Draft202012.Evaluate(schema.RootElement).IsValid);
    }

    [Property(MaxTest = 1_500)]
    public void Read_GeneratedRecord_AgreesWithTheSchema(short a, short b) =>
        Agrees(RecordFormat.Current, "service-record.schema.json", SampleRecord.Text, Seed(a, b));

    [Property(MaxTest = 400)]
    public void Read_GeneratedSheet_AgreesWithTheSchema(short a, short b) =>
        Agrees(
            LimitSheetFormat.Current,
            "limit-sheet.schema.json",
            Shipped("sheets", "reel-125-9-510.sheet.json"),
            Seed(a, b)
        );

    [Property(MaxTest = 400)]
    public void Read_GeneratedRules_AgreesWithTheSchema(short a, short b) =>
        Agrees(
            RulePackFormat.Rules,
            "rules.schema.json",
            Shipped("base", "make-safe.rules.json"),
            Seed(a, b)
        );

    [Property(MaxTest = 400)]
    public void Read_GeneratedProcedure_AgreesWithTheSchema(short a, short b) =>
        Agrees(
            SiteFormat.Procedure,
            "procedure.schema.json",
            Shipped("site-alder-reach", "procedures", "ride-on.json"),
            Seed(a, b)
        );

    [Property(MaxTest = 400)]
    public void Read_GeneratedMapping_AgreesWithTheSchema(short a, short b) =>
        Agrees(
            ImportMappingFormat.Current,
            "import-mapping.schema.json",
            ImportMappingTests.Sample,
            Seed(a, b)
        );

    private static void Agrees<T>(DocumentFormat<T> format, string file, string text, int seed)
        where T : notnull
    {
        string mutated = new DocumentMutation(seed).Of(text);
        using JsonDocument document = JsonDocument.Parse(mutated);
        bool schema = Built[file].Evaluate(document.RootElement).IsValid;
        bool read = format
            .Read(Encoding.UTF8.GetBytes(mutated))
            .TryGet(out T? value, out ProblemReport problems);
        bool expected = read || problems.Told.All(problem => BeyondSchema.Contains(problem.Code));
        Assert.True(schema == expected, $"schema {schema}, reader {read}: {problems}\n{mutated}");
        if (read)
        {
            byte[] written = format.Write(value!);
            Assert.True(format.Read(written).TryGet(out T? again, out ProblemReport lost), lost.ToString());
            Assert.Equal(written, format.Write(again));
        }
    }

    private static int Seed(short a, short b) => (a * 7919) + b;

    private static string Shipped(params string[] path) =>
        File.ReadAllText(ReferenceFiles.InRepository(["rules", .. path]));
}
