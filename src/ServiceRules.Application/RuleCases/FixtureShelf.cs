using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Application.Library;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Application.RuleCases;

/// <summary>The fixtures of a folder of rules, each read once.</summary>
internal sealed class FixtureShelf(string folder)
{
    private readonly SortedDictionary<string, Fixture> known = new(StringComparer.Ordinal);

    public IEnumerable<Fixture> Taken => known.Values;

    public Fixture Of(PlacedCase promise)
    {
        string file = promise.Fixtures + "/" + promise.Case.From + ".record.json";
        if (!known.TryGetValue(file, out Fixture? fixture))
        {
            known[file] = fixture = Read(promise.Case.From, file, promise.Fixtures);
        }

        return fixture;
    }

    private Fixture Read(string name, string file, string fixtures)
    {
        JsonObject? record = Read(file, RecordFormat.Current, out string problem);
        if (record is null)
        {
            return new(name, file, [], [], problem);
        }

        string beside = fixtures + "/" + name + ".context.json";
        JsonObject? context = Read(beside, ContextFormat.Current, out problem);
        return new(name, file, record, context ?? [], problem);
    }

    /// <summary>A document as JSON, once its format has accepted it.</summary>
    private JsonObject? Read<T>(string file, DocumentFormat<T> format, out string problem)
        where T : notnull
    {
        try
        {
            using FileStream stream = File.OpenRead(Path.Combine(folder, file));
            if (format.Read(stream).TryGet(out _, out ProblemReport problems))
            {
                stream.Position = 0;
                problem = "";
                return JsonNode.Parse(stream)!.AsObject();
            }

            problem = $"{file}: {problems}";
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException or JsonException)
        {
            problem = $"there is no fixture `{file}` that can be read";
        }

        return null;
    }
}
