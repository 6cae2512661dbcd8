using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests.SafeWork;

/// <summary>
/// tests/reference/safety/records holds the thirty timelines as documents that anybody can hand to the product: each says
/// what its timeline says, and the readers take it.
/// </summary>
public sealed class PublishedRecordsTests
{
    private static readonly JsonSerializerOptions Indented = new()
    {
        WriteIndented = true,
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public static TheoryData<string> Names() => [.. PublishedTimeline.Names()];

    [Theory]
    [MemberData(nameof(Names))]
    public void Record_OnFile_SaysWhatTheTimelineSays(string name) =>
        Same(name, "record", RecordFormat.Current, PublishedTimeline.Read(name).Record);

    [Theory]
    [MemberData(nameof(Names))]
    public void Context_OnFile_SaysWhatTheTimelineSays(string name) =>
        Same(name, "context", ContextFormat.Current, PublishedTimeline.Read(name).Context);

    private static void Same<T>(string name, string kind, DocumentFormat<T> format, T told)
        where T : notnull
    {
        byte[] written = format.Write(told);
        string path = Path.Combine(ReferenceFiles.At("safety"), "records", $"{name}.{kind}.json");
        if (TestRun.IsAccepting)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllText(path, JsonNode.Parse(written)!.ToJsonString(Indented) + "\n");
        }

        Assert.True(
            format.Read(File.ReadAllBytes(path)).TryGet(out T? onFile, out var problems),
            problems?.ToString()
        );
        Assert.Equal(
            JsonNode.Parse(written)!.ToJsonString(),
            JsonNode.Parse(format.Write(onFile))!.ToJsonString()
        );
    }
}
