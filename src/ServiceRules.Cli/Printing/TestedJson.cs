using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using ServiceRules.Application.Library;
using ServiceRules.Application.RuleCases;
using ServiceRules.Application.RuleCases.Coverage;
using ServiceRules.Application.RuleCases.Mutation;

namespace ServiceRules.Cli.Printing;

/// <summary>What testing the rules came to, for other programs: one object of JSON on one line.</summary>
internal static class TestedJson
{
    public static string Of(RulesTested tested, RuleCoverage? coverage, RulesMutated? mutated)
    {
        using var stream = new MemoryStream();
        using (
            var json = new Utf8JsonWriter(
                stream,
                new JsonWriterOptions { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }
            )
        )
        {
            json.WriteStartObject();
            Write(json, tested);
            if (coverage is not null)
            {
                Write(json, coverage);
            }

            if (mutated is not null)
            {
                Write(json, mutated);
            }

            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static void Write(Utf8JsonWriter json, RulesTested tested)
    {
        json.WriteNumber("cases", tested.Cases.Length);
        json.WriteNumber("asTheySay", tested.Cases.Count(one => one.Outcome is CaseOutcome.AsExpected));
        json.WriteStartArray("otherwise");
        foreach (var result in tested.Cases.Where(one => one.Outcome is not CaseOutcome.AsExpected))
        {
            json.WriteStartObject();
            json.WriteString("rule", result.Case.Case.Rule);
            json.WriteString("name", result.Case.Case.Name);
            json.WriteString("outcome", Kebab(result.Outcome.ToString()));
            json.WriteString("expects", Kebab(result.Case.Case.Expect.ToString()));
            if (result.Found is { } found)
            {
                json.WriteString("found", Kebab(found.ToString()));
                json.WriteString("foundEffect", Kebab($"{result.FoundEffect}"));
            }

            json.WriteString("told", result.Told);
            Write(
                json,
                new RulePlace(result.Case.File, result.Case.Pointer, result.Case.Line, result.Case.Column)
            );
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("fixturesNotReleased");
        foreach (var fixture in tested.Fixtures.Where(one => !one.IsReleased))
        {
            json.WriteStringValue(fixture.File);
        }

        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, RuleCoverage coverage)
    {
        json.WriteStartObject("coverage");
        foreach (var kind in coverage.Parts.GroupBy(part => part.Kind).OrderBy(kind => kind.Key))
        {
            json.WriteStartObject(Kebab(kind.Key.ToString()));
            json.WriteNumber("covered", kind.Count(part => part.Cases > 0));
            json.WriteNumber("all", kind.Count());
            json.WriteEndObject();
        }

        Parts(json, "missing", coverage.Missing);
        Parts(json, "judgedByNoRule", coverage.Idle);
        json.WriteEndObject();
    }

    private static void Parts(Utf8JsonWriter json, string name, IEnumerable<CoveragePart> parts)
    {
        json.WriteStartArray(name);
        foreach (var part in parts)
        {
            json.WriteStartObject();
            json.WriteString("kind", Kebab(part.Kind.ToString()));
            json.WriteString("of", part.Of);
            json.WriteString("part", part.Part);
            if (part.Side.Length > 0)
            {
                json.WriteString("side", part.Side);
            }

            Write(json, part.Place);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, RulesMutated mutated)
    {
        json.WriteStartObject("mutation");
        foreach (var end in Enum.GetValues<MutantEnd>())
        {
            json.WriteNumber(JsonNamingPolicy.CamelCase.ConvertName(end.ToString()), mutated.Count(end));
        }

        json.WriteStartArray("survivors");
        foreach (var one in mutated.Survivors)
        {
            json.WriteStartObject();
            json.WriteString("kind", Kebab(one.Mutant.Kind.ToString()));
            json.WriteString("of", one.Mutant.Of);
            json.WriteString("what", one.Mutant.What);
            Write(json, one.Mutant.Place);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, RulePlace place)
    {
        json.WriteString("file", place.File);
        json.WriteString("pointer", place.Pointer);
        json.WriteNumber("line", place.Line);
        json.WriteNumber("column", place.Column);
    }

    private static string Kebab(string pascal) => JsonNamingPolicy.KebabCaseLower.ConvertName(pascal);
}
