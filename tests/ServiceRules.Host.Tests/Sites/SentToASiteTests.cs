using System.Text.Json;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests.Sites;

/// <summary>Records go to the site of whoever sends them, and are judged apart from those of the other one.</summary>
public sealed class SentToASiteTests(TwoSites shop) : IClassFixture<TwoSites>
{
    private const string OfSecond = "?site=Birch%20Hollow";

    [Theory]
    [InlineData("api/records")]
    [InlineData("api/judgements")]
    public async Task Record_SentToTheOtherSite_IsRefusedAndNotFiled(string path)
    {
        using var first = shop.As(Roles.Lead, TwoSites.First);

        var (status, body) = await TwoSites.PostAsync(first, path + OfSecond, TwoSites.Job("J-sent", "16"));
        var (unknown, told) = await TwoSites.PostAsync(
            first,
            path + "?site=Nowhere",
            TwoSites.Job("J-sent", "16")
        );

        Assert.Equal((403, 403), (status, unknown));
        Assert.Equal(told, body);
        using var every = shop.As(Roles.Officer, GrantedSite.Every);
        Assert.Equal(404, (await TwoSites.GetAsync(every, "api/records/J-sent")).Status);
    }

    [Theory]
    [InlineData(Roles.Lead, null)]
    [InlineData(Roles.Technician, "tech-02")]
    public async Task Record_UnderTheIdentityOfTheOtherSite_IsAConflictThatTellsNothing(
        Roles role,
        string? person
    )
    {
        using var first = shop.As(role, TwoSites.First, person);

        var other = await TwoSites.PostAsync(first, "api/records", TwoSites.Job("J-B2", "14"));
        var same = await TwoSites.PostAsync(
            first,
            "api/records",
            TwoSites.Job("J-B2", "14", ("3.82 mm", "4.90 mm"))
        );

        Assert.Equal((409, 409), (other.Status, same.Status));
        Assert.Equal(other.Body, same.Body);
        Assert.DoesNotContain("\"pointer\"", other.Body, StringComparison.Ordinal);
        Assert.DoesNotContain("4.90", other.Body, StringComparison.Ordinal);
        Assert.DoesNotContain("entry", other.Body, StringComparison.Ordinal);
        Assert.DoesNotContain("Birch", other.Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Amendment_OfARecordOfTheOtherSite_IsLikeOneOfNone()
    {
        using var first = shop.As(Roles.Lead, TwoSites.First);

        var there = await AmendAsync("J-B2");
        var absent = await AmendAsync("J-B0");

        Assert.Equal(404, there.Status);
        Assert.Equal(absent.Body.Replace("J-B0", "J-B2", StringComparison.Ordinal), there.Body);
        using var second = shop.As(Roles.Lead, TwoSites.Second);
        Assert.Contains(
            "4.90",
            (await TwoSites.GetAsync(second, "api/records/J-B2")).Body,
            StringComparison.Ordinal
        );

        async Task<(int Status, string Body)> AmendAsync(string id) =>
            await TwoSites.PostAsync(
                first,
                $"api/records/{id}/amendments?by=lead-01&reason=x",
                TwoSites.Job(id, "14")
            );
    }

    [Fact]
    public async Task WhatTheOtherSiteShows_OfMachineLocksAndPeople_BearsOnNothing()
    {
        _ = await shop.FiledAsync(TwoSites.First, TwoSites.Job("J-A-hands", "13"));
        var apart = await shop.FiledAsync(TwoSites.Second, TwoSites.Start("J-B-apart"));
        var together = await shop.FiledAsync(TwoSites.First, TwoSites.Start("J-A-start"));

        Assert.Contains("J-A-hands", Turned(together));
        Assert.DoesNotContain(Turned(apart), id => id.StartsWith("J-A", StringComparison.Ordinal));
        Assert.DoesNotContain(Turned(together), id => id.StartsWith("J-B", StringComparison.Ordinal));
        using var first = shop.As(Roles.Lead, TwoSites.First);
        var stands = (await TwoSites.GetAsync(first, "api/records/J-A-start")).Body;
        Assert.Contains("J-A-hands", stands, StringComparison.Ordinal);
        Assert.DoesNotContain("J-B", stands, StringComparison.Ordinal);

        static List<string> Turned(JsonElement answer) =>
            answer.TryGetProperty("alsoTurned", out var turned)
                ? [.. turned.EnumerateArray().Select(one => one.GetProperty("id").GetString()!)]
                : [];
    }

    [Fact]
    public async Task WhoeverIsOfEverySite_NamesTheOneThatIsMeant()
    {
        using var every = shop.As(Roles.Lead, GrantedSite.Every);

        var open = await TwoSites.PostAsync(every, "api/records", TwoSites.Job("J-every", "17"));
        var sent = await TwoSites.PostAsync(every, "api/records" + OfSecond, TwoSites.Job("J-every", "17"));
        var amended = await TwoSites.PostAsync(
            every,
            "api/records/J-every/amendments?by=lead-01&reason=x",
            TwoSites.Job("J-every", "17", ("3.82 mm", "3.81 mm"))
        );

        Assert.Equal((400, 201, 201), (open.Status, sent.Status, amended.Status));
        Assert.Equal(400, (await TwoSites.GetAsync(every, "api/people")).Status);
        Assert.Contains(
            "birch-03",
            (await TwoSites.GetAsync(every, "api/people" + OfSecond)).Body,
            StringComparison.Ordinal
        );
        var listed = (await TwoSites.GetAsync(every, "api/records")).Body;
        Assert.Contains("J-A1", listed, StringComparison.Ordinal);
        Assert.Contains("J-B1", listed, StringComparison.Ordinal);
        using var second = shop.As(Roles.Officer, TwoSites.Second);
        Assert.Equal(200, (await TwoSites.GetAsync(second, "api/records/J-every")).Status);
    }

    [Fact]
    public async Task IdempotencyKey_SentAgainForAnotherSite_IsAnotherRequest()
    {
        using var every = shop.As(Roles.Lead, GrantedSite.Every);
        var job = TwoSites.Job("J-once", "18");

        Assert.Equal(201, (await TwoSites.PostAsync(every, "api/records" + OfSecond, job, "\"one\"")).Status);
        Assert.Equal(201, (await TwoSites.PostAsync(every, "api/records" + OfSecond, job, "\"one\"")).Status);
        var other = await TwoSites.PostAsync(
            every,
            "api/records?site=Alder%20Reach%20Parks%20Trust",
            job,
            "\"one\""
        );

        Assert.Equal(422, other.Status);
        Assert.Contains("key-reused", other.Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Person_OfTheOtherRegisterAlone_AnswersForNothing()
    {
        using var first = shop.As(Roles.Lead, TwoSites.First);

        var (status, _) = await TwoSites.PostAsync(
            first,
            "api/records?by=birch-03",
            TwoSites.Job("J-by", "19")
        );

        Assert.Equal(422, status);
    }

    [Fact]
    public async Task Key_OfNoSite_SeesAndFilesNothing()
    {
        using var none = shop.As(Roles.Lead | Roles.Officer, null);

        var listed = await TwoSites.GetAsync(none, "api/records");

        Assert.Equal(200, listed.Status);
        Assert.DoesNotContain("J-", listed.Body, StringComparison.Ordinal);
        Assert.Equal(404, (await TwoSites.GetAsync(none, "api/records/J-A1")).Status);
        Assert.Equal(403, (await TwoSites.GetAsync(none, "api/people")).Status);
        Assert.Equal(
            403,
            (await TwoSites.PostAsync(none, "api/records", TwoSites.Job("J-none", "20"))).Status
        );
    }

    [Fact]
    public async Task Bench_OfTheFirstSite_FilesNothingAtTheSecond()
    {
        using var first = shop.As(Roles.Lead, TwoSites.First);
        using var form = new FormUrlEncodedContent([
            new("record", System.Text.Encoding.UTF8.GetString(TwoSites.Job("J-bench", "21"))),
            new("site", TwoSites.Second),
            new("do", "submit"),
        ]);

        using var answer = await first.PostAsync(new Uri("bench", UriKind.Relative), form);

        Assert.Contains("none of yours", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        using var every = shop.As(Roles.Officer, GrantedSite.Every);
        Assert.Equal(404, (await TwoSites.GetAsync(every, "api/records/J-bench")).Status);
    }
}
