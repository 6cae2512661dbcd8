using System.Net;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Packs;
using ServiceRules.Rules.Model;

namespace ServiceRules.Host.Tests;

/// <summary>Putting other packs and sheets in force, while the service runs and over its starts.</summary>
public sealed class ActivationTests : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-host-").FullName;
    private ServiceRun _run = null!;

    public async Task InitializeAsync() => _run = await ServiceRun.StartAsync(_folder);

    public async Task DisposeAsync()
    {
        await _run.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Activation_OfOtherRules_JudgesFromThenOnAlsoAfterAStartAndBackAgain()
    {
        await FileAsync(TooHigh("A-1"), "hold");
        var first = (await _run.GetJsonAsync("api/packs")).GetProperty("digest").GetString()!;
        var lenient = Keep(await LenientAsync());

        using (var activated = await ActivateAsync(lenient))
        {
            Assert.Equal(HttpStatusCode.Created, activated.StatusCode);
        }

        await FileAsync(TooHigh("A-2"), "release");
        using (var again = await ActivateAsync(lenient))
        {
            Assert.Equal(HttpStatusCode.OK, again.StatusCode);
        }

        await _run.DisposeAsync();
        _run = await ServiceRun.StartAsync(_folder);
        Assert.Contains(_run.Service.Remarks, told => told.Contains(lenient, StringComparison.Ordinal));
        var packs = await _run.GetJsonAsync("api/packs");
        Assert.Equal(lenient, packs.GetProperty("digest").GetString());
        Assert.Equal("milder", packs.GetProperty("activation").GetProperty("reason").GetString());
        Assert.StartsWith(
            "p-",
            packs.GetProperty("activation").GetProperty("by").GetString()!,
            StringComparison.Ordinal
        );
        await FileAsync(TooHigh("A-3"), "release");

        using (var back = await ActivateAsync(first))
        {
            Assert.Equal(HttpStatusCode.Created, back.StatusCode);
        }

        await FileAsync(TooHigh("A-4"), "hold");
        Assert.Equal(
            [first, lenient, first],
            (await _run.GetJsonAsync("api/packs"))
                .GetProperty("activations")
                .EnumerateArray()
                .Select(one => one.GetProperty("digest").GetString())
        );
        Assert.Equal(
            2,
            _run.Get<IAccountStore>().Acts(null, 100).Count(act => act.What == AccountAct.RulesActivated)
        );
    }

    [Fact]
    public async Task Activation_IsAnEntryOfTheLogWithReasonAndPerson()
    {
        var lenient = Keep(await LenientAsync());
        using var activated = await ActivateAsync(lenient);
        var index = (await ServiceRun.JsonAsync(activated)).GetProperty("entry").GetInt64();

        var entry = await _run.GetJsonAsync($"api/ledger/entries/{index}");

        Assert.Equal("pack-activation", entry.GetProperty("kind").GetString());
        Assert.Equal(lenient, entry.GetProperty("content").GetString());
        Assert.Equal("milder", entry.GetProperty("reason").GetString());
        await FileAsync(TooHigh("A-1"), "release");
        Assert.DoesNotContain(
            Enumerable.Range((int)index + 1, 2),
            at => Kind(at).GetAwaiter().GetResult() == "pack-activation"
        );
    }

    [Fact]
    public async Task Activation_WithoutReasonOrOfNothingStored_IsRefused()
    {
        using var unreasoned = await _run.PostAsync("api/packs/sha256:00/activation?by=lead-01", []);
        using var unknown = await ActivateAsync("sha256:00");
        using var stranger = await _run.PostAsync("api/packs/sha256:00/activation?by=nobody&reason=x", []);

        Assert.Equal(422, (int)unreasoned.StatusCode);
        Assert.Equal(404, (int)unknown.StatusCode);
        Assert.Equal(422, (int)stranger.StatusCode);
    }

    [Fact]
    public async Task Activation_ForAReasonThatNamesSomebody_IsRefusedAndNothingKept()
    {
        var lenient = Keep(await LenientAsync());

        using var named = await _run.PostAsync(
            $"api/packs/{lenient}/activation?by=lead-01&reason=as%20Tech-03%20asked",
            []
        );

        using var again = await _run.PostAsync(
            $"api/packs/{lenient}/rejudging?reason=as%20tech-03%20asked",
            []
        );

        Assert.Equal((422, 422), ((int)named.StatusCode, (int)again.StatusCode));
        Assert.DoesNotContain(
            _run.Get<IAccountStore>().Acts(null, 100),
            act => act.Detail?.Contains("ech-03", StringComparison.Ordinal) == true
        );
    }

    [Fact]
    public async Task Comparison_OfMilderRules_TellsTheRecordThatWouldGoOut()
    {
        await FileAsync(TooHigh("A-1"), "hold");
        var lenient = Keep(await LenientAsync());

        using var answer = await _run.PostAsync($"api/packs/{lenient}/comparison?newest=10", []);

        var told = await ServiceRun.JsonAsync(answer);
        Assert.True(answer.StatusCode == HttpStatusCode.OK, told.GetRawText());
        Assert.Equal(1, told.GetProperty("records").GetInt32());
        var turned = Assert.Single(told.GetProperty("turned").EnumerateArray());
        Assert.Equal("A-1", turned.GetProperty("record").GetString());
        Assert.Equal("hold", turned.GetProperty("was").GetString());
        Assert.Equal("release", turned.GetProperty("wouldBe").GetString());
        Assert.Contains(
            turned.GetProperty("flips").EnumerateArray(),
            flip => flip.GetProperty("causes")[0].GetProperty("kind").GetString() == "rule-removed"
        );
        using var many = await _run.PostAsync($"api/packs/{lenient}/comparison?newest=5000", []);
        Assert.Equal(400, (int)many.StatusCode);
    }

    [Fact]
    public async Task Start_ToldToPutTheFolderInForce_DoesSoAndKeepsTheAct()
    {
        var lenient = Keep(await LenientAsync());
        using var activated = await ActivateAsync(lenient);
        Assert.Equal(HttpStatusCode.Created, activated.StatusCode);
        await _run.DisposeAsync();

        _run = await ServiceRun.StartAsync(_folder, settings => settings with { ActivatesRules = true });

        var packs = await _run.GetJsonAsync("api/packs");
        Assert.Equal(RuleDocument.Of(ServiceRun.Rules.Book).Digest, packs.GetProperty("digest").GetString());
        Assert.Contains(
            _run.Get<IAccountStore>().Acts(null, 100),
            act => act.What == AccountAct.RulesActivated && act.By == AccountAct.Machine
        );
    }

    private static byte[] TooHigh(string id) =>
        ServiceRun.Record(
            "height-check",
            ("F-height-check", id),
            (
                "2026-04-13",
                "2026-04-" + (12 + int.Parse(id.AsSpan(2), System.Globalization.CultureInfo.InvariantCulture))
            ),
            ("3.82 mm", "4.90 mm")
        );

    /// <summary>The rules without those that hold a unit that is set too high.</summary>
    private async Task<RuleBook> LenientAsync()
    {
        using var judged = await _run.PostAsync("api/judgements", TooHigh("A-9"));
        var breached = (await ServiceRun.JsonAsync(judged))
            .GetProperty("findings")
            .EnumerateArray()
            .Where(finding => finding.GetProperty("verdict").GetString() == "not-met")
            .Select(finding => finding.GetProperty("rule").GetString())
            .ToHashSet();
        return ServiceRun.Rules.Book with
        {
            Packs =
            [
                .. ServiceRun.Rules.Book.Packs.Select(pack =>
                    pack with
                    {
                        Rules = [.. pack.Rules.Where(rule => !breached.Contains(rule.Id.Text))],
                    }
                ),
            ],
        };
    }

    private string Keep(RuleBook book)
    {
        var document = RuleDocument.Of(book);
        _ = _run.Get<StoreRules>().Keep(document, "key:test");
        return document.Digest;
    }

    private Task<HttpResponseMessage> ActivateAsync(string digest) =>
        _run.PostAsync($"api/packs/{digest}/activation?by=lead-01&reason=milder", []);

    private async Task<string?> Kind(int index)
    {
        using var answer = await _run.GetAsync($"api/ledger/entries/{index}");
        return answer.IsSuccessStatusCode
            ? (await ServiceRun.JsonAsync(answer)).GetProperty("kind").GetString()
            : null;
    }

    private async Task FileAsync(byte[] record, string disposition)
    {
        using var filed = await _run.PostAsync("api/records", record);
        var told = await ServiceRun.JsonAsync(filed);
        Assert.True(filed.StatusCode == HttpStatusCode.Created, told.GetRawText());
        Assert.Equal(disposition, told.GetProperty("disposition").GetString());
    }
}
