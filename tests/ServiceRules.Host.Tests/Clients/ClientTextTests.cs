using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Clients;

/// <summary>
/// docs/openapi.json is what the service answers, and the client is what that comes to. `SERVICERULES_ACCEPT=1 dotnet test`
/// writes both anew.
/// </summary>
public sealed class ClientTextTests(SharedService shared) : IClassFixture<SharedService>
{
    private readonly ServiceRun _run = shared.Run;

    [Fact]
    public async Task Text_OfTheService_IsTheOneThatIsKept() =>
        ApprovedFile.MatchesAt(await _run.TextAsync("openapi/v1.json") + "\n", "docs", "openapi.json");

    [Fact]
    public async Task Client_OfTheText_IsTheOneThatIsKept() =>
        ApprovedFile.MatchesAt(
            await WrittenClient.OfAsync(JsonNode.Parse(await _run.TextAsync("openapi/v1.json"))!.AsObject()),
            "tests",
            "ServiceRules.Client",
            "ServiceClient.g.cs"
        );
}
