using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests.Accounts;

public sealed class KeyTests : IAsyncLifetime
{
    private readonly MovedClock _clock = new();
    private ServiceRun _run = null!;

    public async Task InitializeAsync() =>
        _run = await ServiceRun.StartAsync(change: settings => settings with { Clock = _clock });

    public async Task DisposeAsync() => await _run.DisposeAsync();

    private async Task<int> StatusAsync(string key)
    {
        using var client = _run.ClientWith(key);
        using var answer = await client.GetAsync(new Uri("api/machines", UriKind.Relative));
        return (int)answer.StatusCode;
    }

    [Fact]
    public async Task Key_ThatExpiredOrIsRevoked_OpensNothing()
    {
        var short_ = _run.NewKey(Roles.Lead, days: 1);
        var long_ = _run.NewKey(Roles.Lead, days: 9);
        Assert.Equal(200, await StatusAsync(short_));

        _clock.Ahead = TimeSpan.FromDays(1);
        Assert.Equal(401, await StatusAsync(short_));
        Assert.Equal(200, await StatusAsync(long_));

        var kept = _run.Get<IAccountStore>().Key(DrawnSecret.Hash(long_))!;
        Assert.True(_run.Get<KeyMaking>().Revoke(kept.Id, AccountAct.Machine));
        Assert.False(_run.Get<KeyMaking>().Revoke(kept.Id, AccountAct.Machine));
        Assert.Equal(401, await StatusAsync(long_));
    }

    [Fact]
    public async Task Key_ThatWasUsed_TellsWhen()
    {
        var key = _run.NewKey(Roles.Lead);
        Assert.Null(_run.Get<IAccountStore>().Key(DrawnSecret.Hash(key))!.LastUsedAt);

        Assert.Equal(200, await StatusAsync(key));

        Assert.NotNull(_run.Get<IAccountStore>().Key(DrawnSecret.Hash(key))!.LastUsedAt);
    }

    [Theory]
    [InlineData("")]
    [InlineData("Basic YTpi")]
    [InlineData("Bearer")]
    [InlineData("Bearer srk-x")]
    public async Task Header_ThatIsNoKey_OpensNothing(string header)
    {
        using var client = _run.ClientWith(null);
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri("api/machines", UriKind.Relative));
        Assert.True(request.Headers.TryAddWithoutValidation("Authorization", header));

        using var answer = await client.SendAsync(request);

        Assert.Equal(401, (int)answer.StatusCode);
    }

    [Fact]
    public async Task Key_IsKeptNowhere()
    {
        var key = _run.NewKey(Roles.Lead);
        Assert.Equal(200, await StatusAsync(key));
        var secret = Encoding.ASCII.GetBytes(key);

        foreach (
            var file in Directory.EnumerateFiles(_run.Folder + "/data", "*", SearchOption.AllDirectories)
        )
        {
            await using var stream = new FileStream(
                file,
                FileMode.Open,
                FileAccess.Read,
                FileShare.ReadWrite
            );
            using var held = new MemoryStream();
            await stream.CopyToAsync(held);
            Assert.True(held.ToArray().AsSpan().IndexOf(secret) < 0, file);
        }
    }

    [Fact]
    public async Task KeysPage_MadeThere_OpensAndIsShownThisOnce()
    {
        using var form = new FormUrlEncodedContent([
            new("name", "export"),
            new("role", "officer"),
            new("person", ""),
            new("days", "30"),
        ]);
        using var made = await _run.Client.PostAsync(new Uri("keys", UriKind.Relative), form);
        var page = await made.Content.ReadAsStringAsync();
        var start = page.IndexOf(DrawnSecret.KeyStart, StringComparison.Ordinal);
        var key = page[start..page.IndexOf('<', start)];

        Assert.Equal(200, await StatusAsync(key));
        foreach (var after in new[] { await _run.TextAsync("keys"), await _run.TextAsync("people") })
        {
            Assert.DoesNotContain(key, after, StringComparison.Ordinal);
            Assert.DoesNotContain("Told this once", after, StringComparison.Ordinal);
        }

        Assert.Contains("export", await _run.TextAsync("keys"), StringComparison.Ordinal);
        var acts = await _run.TextAsync("acts");
        Assert.Contains(AccountAct.KeyMade, acts, StringComparison.Ordinal);
        var kept = _run.Get<IAccountStore>().Acts(null, 10).First(act => act.What == AccountAct.KeyMade);
        Assert.Contains($"<td>entry {kept.Entry}</td>", acts, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "lead", "", "30")]
    [InlineData("x", "", "", "30")]
    [InlineData("x", "owner", "", "30")]
    [InlineData("x", "technician", "", "30")]
    [InlineData("x", "technician", "nobody-99", "30")]
    [InlineData("x", "lead", "", "0")]
    [InlineData("x", "lead", "", "367")]
    [InlineData("x", "lead", "", "soon")]
    public async Task KeysPage_WhatCannotBe_IsRefused(string name, string role, string person, string days)
    {
        using var form = new FormUrlEncodedContent([
            new("name", name),
            new("role", role),
            new("person", person),
            new("days", days),
        ]);
        var before = _run.Get<IAccountStore>().Keys().Length;

        using var made = await _run.Client.PostAsync(new Uri("keys", UriKind.Relative), form);

        Assert.Equal(422, (int)made.StatusCode);
        Assert.Equal(before, _run.Get<IAccountStore>().Keys().Length);
    }

    [Fact]
    public async Task Description_OfTheInterface_StatesTheKey()
    {
        var root = JsonNode.Parse(await _run.TextAsync("openapi/v1.json"))!;

        Assert.Equal("bearer", root["components"]!["securitySchemes"]!["key"]!["scheme"]!.GetValue<string>());
        Assert.NotNull(root["security"]![0]!["key"]);
    }
}
