using System.Text.Json.Nodes;
using Microsoft.OpenApi;

namespace ServiceRules.Host.Tests;

public sealed class DescriptionTests(SharedService shared) : IClassFixture<SharedService>
{
    private readonly ServiceRun _run = shared.Run;

    [Fact]
    public async Task Description_Text_IsOpenApi31WithoutFaults()
    {
        var text = await _run.TextAsync("openapi/v1.json");

        var read = OpenApiDocument.Parse(text);

        Assert.Empty(read.Diagnostic!.Errors);
        Assert.Equal(OpenApiSpecVersion.OpenApi3_1, read.Diagnostic.SpecificationVersion);
    }

    [Fact]
    public async Task Description_EveryReference_LeadsToASchemaThatIsThere()
    {
        var root = JsonNode.Parse(await _run.TextAsync("openapi/v1.json"))!;
        var references = References(root).Distinct(StringComparer.Ordinal).ToList();

        Assert.Contains("#/components/schemas/service-record", references);
        Assert.Contains("#/components/schemas/assessment", references);
        Assert.All(
            references,
            reference =>
                Assert.True(
                    // `#/components/schemas/assessment`
                    reference.Split('/')
                        is ["#", "components", var kind, var name]
                        && root["components"]![kind]!.AsObject().ContainsKey(name),
                    reference
                )
        );
        Assert.DoesNotContain("\"x-", root.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Description_EveryOperation_HasANameASummaryAndItsProblems()
    {
        var paths = JsonNode.Parse(await _run.TextAsync("openapi/v1.json"))!["paths"]!.AsObject();
        var operations = paths.SelectMany(path => path.Value!.AsObject()).ToList();

        Assert.True(operations.Count >= 15);
        Assert.All(operations, operation => Assert.NotNull(operation.Value!["operationId"]));
        Assert.All(operations, operation => Assert.NotNull(operation.Value!["summary"]));
        Assert.All(operations, operation => Assert.NotNull(operation.Value!["responses"]!["429"]));
        Assert.Equal(
            operations.Count,
            operations
                .Select(operation => operation.Value!["operationId"]!.GetValue<string>())
                .Distinct()
                .Count()
        );
    }

    [Fact]
    public async Task Description_EveryParameterAnswerAndGroup_IsExplained()
    {
        var root = JsonNode.Parse(await _run.TextAsync("openapi/v1.json"))!;
        var operations = root["paths"]!
            .AsObject()
            .SelectMany(path => path.Value!.AsObject())
            .Select(one => one.Value!)
            .ToList();
        List<string> bare = [];
        foreach (var operation in operations)
        {
            var name = operation["operationId"]!.GetValue<string>();
            bare.AddRange(
                (operation["parameters"]?.AsArray() ?? [])
                    .Where(parameter => string.IsNullOrEmpty(parameter!["description"]?.GetValue<string>()))
                    .Select(parameter => $"{name}: parameter {parameter!["name"]}")
            );
            bare.AddRange(
                operation["responses"]!
                    .AsObject()
                    .Where(answer => answer.Key != "304" && !IsTold(answer.Key, answer.Value!))
                    .Select(answer => $"{name}: answer {answer.Key}")
            );
            if (
                operation["requestBody"]?["content"]?["application/json"] is { } body
                && body["examples"] is null
                && body["example"] is null
            )
            {
                bare.Add($"{name}: an example of what is sent");
            }
        }

        bare.AddRange(
            root["tags"]!
                .AsArray()
                .Where(group => group!["description"] is null)
                .Select(group => $"the group {group!["name"]}")
        );

        Assert.True(bare.Count == 0, string.Join('\n', bare));
    }

    // A schema, and of problems the kinds with an example of each.
    private static bool IsTold(string status, JsonNode answer) =>
        answer["content"] is JsonObject content
        && content.All(kind => kind.Value!["schema"] is not null)
        && (
            status[0] == '2'
            || content["application/problem+json"]?["examples"] is JsonObject { Count: > 0 } examples
                && examples.All(example =>
                    answer["description"]!
                        .GetValue<string>()
                        .Contains($"`{example.Key}`: ", StringComparison.Ordinal)
                )
        );

    [Fact]
    public async Task Page_OfTheInterface_TellsEveryOperationAndNeedsNothingElse()
    {
        var page = await _run.TextAsync("api");

        Assert.Contains("POST /api/records", page, StringComparison.Ordinal);
        Assert.Contains("id=\"problem-conflict\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        Assert.DoesNotContain("http://", page, StringComparison.Ordinal);
        Assert.DoesNotContain("https://", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Health_OfARunningService_IsLiveAndReady()
    {
        Assert.Equal("Healthy", await _run.TextAsync("health/live"));
        var ready = await _run.GetJsonAsync("health/ready");
        Assert.Equal("ready", ready.GetProperty("status").GetString());
    }

    private static IEnumerable<string> References(JsonNode? node) =>
        node switch
        {
            JsonObject members => members.SelectMany(member =>
                member.Key == "$ref" && member.Value is JsonValue
                    ? [member.Value.GetValue<string>()]
                    : References(member.Value)
            ),
            JsonArray items => items.SelectMany(References),
            _ => [],
        };
}
