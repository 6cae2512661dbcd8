using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Application.Reports;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.Filed;

/// <summary>A folder of records made from those that ship with the rules, gone with the test.</summary>
internal sealed class RecordFiles : IDisposable
{
    private static readonly Lazy<LoadedRules> Shipped = new(() =>
        RuleFolder.Load(ReferenceFiles.InRepository("rules"))
    );

    public static LoadedRules Rules => Shipped.Value;

    public static RecordGathering Gathering =>
        new(new NoReports(), Rules.Book, Rules.Site?.Name ?? "no site");

    public string Folder { get; } = Directory.CreateTempSubdirectory("servicerules-records-").FullName;

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    public static JsonObject Fixture(string name) =>
        JsonNode
            .Parse(
                File.ReadAllText(
                    ReferenceFiles.InRepository("rules", "base", "fixtures", $"{name}.record.json")
                )
            )!
            .AsObject();

    public static string Context(string name) =>
        File.ReadAllText(ReferenceFiles.InRepository("rules", "base", "fixtures", $"{name}.context.json"));

    public string Write(string name, JsonNode content) => Write(name, content.ToJsonString());

    public string Write(string name, string content)
    {
        var path = Path.Combine(Folder, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, content, new UTF8Encoding(false));
        return path;
    }

    internal sealed class NoReports : IReportReader
    {
        public SignedReport Read(ReadOnlyMemory<byte> file) =>
            new(
                [ReportPoint.Failed("file-shape", "there is no report here")],
                false,
                false,
                null,
                null,
                null,
                new Dictionary<string, byte[]>(StringComparer.Ordinal)
            );
    }
}
