using System.Net;
using System.Text;

namespace ServiceRules.Host.Tests;

public sealed class RecordsApiTests(SharedService shared) : IClassFixture<SharedService>
{
    private readonly ServiceRun _run = shared.Run;

    private static byte[] Record(string id, params (string, string)[] changes) =>
        ServiceRun.Record("height-check", [("F-height-check", id), .. changes, ("2026-04-13", Day(id))]);

    // Each of a day of its own: at one machine at the same time they would bear on each other.
    private static string Day(string id) =>
        new DateOnly(2026, 4, 12)
            .AddDays(int.TryParse(id.AsSpan(2), out var number) ? number : 0)
            .ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    // Not signed off: the job goes on.
    private static byte[] Open(string id, string hours) =>
        ServiceRun.Record(
            "height-check",
            ("F-height-check", id),
            (
                """
                  ],
                  "signOff": { "by": "tech-02", "at": "2026-04-13T08:40:00+01:00" }
                """,
                hours.Length == 0 ? "  ]" : $"  ],\n  \"complaint\": \"{hours}\""
            ),
            ("2026-04-13", Day(id))
        );

    [Fact]
    public async Task Submit_NewThenSameThenOther_IsFiledThenStandsThenConflicts()
    {
        using var first = await _run.PostAsync("api/records", Record("J-1"));
        using var again = await _run.PostAsync("api/records", Record("J-1"));
        using var other = await _run.PostAsync("api/records", Record("J-1", ("3.82 mm", "3.85 mm")));

        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        Assert.Equal("/api/records/J-1", first.Headers.Location!.ToString());
        var filed = await ServiceRun.JsonAsync(first);
        Assert.Equal("release", filed.GetProperty("disposition").GetString());
        Assert.Equal("assessment/1", filed.GetProperty("assessment").GetProperty("format").GetString());
        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
        var stood = await ServiceRun.JsonAsync(again);
        Assert.Equal(
            filed.GetProperty("record").GetProperty("index").GetInt64(),
            stood.GetProperty("record").GetProperty("index").GetInt64()
        );
        Assert.Equal(HttpStatusCode.Conflict, other.StatusCode);
        var difference = (await ServiceRun.JsonAsync(other)).GetProperty("differences")[0];
        Assert.Equal("/units/0/entries/1/value", difference.GetProperty("pointer").GetString());
        Assert.Equal("\"3.82 mm\"", difference.GetProperty("stood").GetString());
        Assert.Equal("\"3.85 mm\"", difference.GetProperty("sent").GetString());
    }

    [Fact]
    public async Task Submit_OpenJobFurtherOn_IsAnotherVersion()
    {
        using var begun = await _run.PostAsync("api/records", Open("J-2", ""));
        using var further = await _run.PostAsync("api/records", Open("J-2", "ragged cut on the left"));

        Assert.Equal(HttpStatusCode.Created, begun.StatusCode);
        Assert.Equal(HttpStatusCode.Created, further.StatusCode);
        var record = await _run.GetJsonAsync("api/records/J-2");
        Assert.Equal(2, record.GetProperty("versions").GetArrayLength());
        Assert.Equal(
            "ragged cut on the left",
            record.GetProperty("record").GetProperty("complaint").GetString()
        );
    }

    [Fact]
    public async Task Amend_WithPersonAndReason_KeepsBothVersions()
    {
        _ = await _run.PostAsync("api/records", Record("J-3"));
        var corrected = Record("J-3", ("3.82 mm", "3.84 mm"));

        using var amended = await _run.PostAsync(
            "api/records/J-3/amendments?by=lead-01&reason=read%20wrong",
            corrected
        );
        using var again = await _run.PostAsync(
            "api/records/J-3/amendments?by=lead-01&reason=read%20wrong",
            corrected
        );

        Assert.Equal(HttpStatusCode.Created, amended.StatusCode);
        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
        var versions = (await _run.GetJsonAsync("api/records/J-3")).GetProperty("versions");
        Assert.Equal(2, versions.GetArrayLength());
        var newest = versions[1].GetProperty("entry");
        Assert.Equal("amendment", newest.GetProperty("kind").GetString());
        Assert.Equal("read wrong", newest.GetProperty("reason").GetString());
        // The log names people by pseudonyms alone.
        Assert.StartsWith("p-", newest.GetProperty("by").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("J-none/amendments?by=lead-01&reason=x", 404)]
    [InlineData("J-4/amendments?by=lead-01", 422)]
    [InlineData("J-4/amendments?reason=x", 422)]
    [InlineData("J-4/amendments?by=nobody-here&reason=x", 422)]
    [InlineData("J-5/amendments?by=lead-01&reason=x", 422)]
    public async Task Amend_WhatDoesNotGo_IsRefused(string path, int status)
    {
        _ = await _run.PostAsync("api/records", Record("J-4"));
        var id = path.StartsWith("J-none", StringComparison.Ordinal) ? "J-none" : "J-4";

        using var answer = await _run.PostAsync("api/records/" + path, Record(id, ("3.82 mm", "3.84 mm")));

        Assert.Equal(status, (int)answer.StatusCode);
    }

    [Fact]
    public async Task Read_WithTheTagOfWhatIsKnown_SendsNothingUntilItChanges()
    {
        _ = await _run.PostAsync("api/records", Record("J-6"));
        using var first = await _run.GetAsync("api/records/J-6");
        var tag = first.Headers.ETag!;

        async Task<HttpStatusCode> AskAsync()
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, "api/records/J-6");
            request.Headers.IfNoneMatch.Add(tag);
            using var answer = await _run.Client.SendAsync(request);
            return answer.StatusCode;
        }

        Assert.Equal(HttpStatusCode.NotModified, await AskAsync());
        _ = await _run.PostAsync(
            "api/records/J-6/amendments?by=lead-01&reason=x",
            Record("J-6", ("3.82 mm", "3.84 mm"))
        );
        Assert.Equal(HttpStatusCode.OK, await AskAsync());
    }

    [Fact]
    public async Task Judge_Record_AnswersWhatSubmittingAnswersAndStoresNothing()
    {
        using var judged = await _run.PostAsync("api/judgements", Record("J-7"));
        using var absent = await _run.GetAsync("api/records/J-7");
        using var filed = await _run.PostAsync("api/records", Record("J-7"));

        Assert.Equal(HttpStatusCode.OK, judged.StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, absent.StatusCode);
        Assert.Equal(
            (await ServiceRun.JsonAsync(judged)).GetRawText(),
            (await ServiceRun.JsonAsync(filed)).GetProperty("assessment").GetRawText()
        );
    }

    [Fact]
    public async Task Submit_StartOverTheHandsOfAStoredJob_IsToldThereAndHere()
    {
        _ = await _run.PostAsync("api/records", Record("J-31"));
        using var first = await _run.GetAsync("api/records/J-31/report");
        var start = Encoding.UTF8.GetBytes(
            $$"""
            { "format": "service-record/1", "id": "J-31-start", "date": "{{Day(
                "J-31"
            )}}", "machine": { "id": "M-02" },
              "tasks": ["daily-check"], "people": [{ "id": "tech-04", "role": "performs" }],
              "units": [{ "id": "U-02-1", "sheet": "reel-125-9-510", "position": 1, "entries": [] }],
              "timeline": [{ "event": "machine_started", "at": "{{Day(
                "J-31"
            )}}T08:20:00+01:00", "by": "tech-04" }],
              "signOff": { "by": "tech-04", "at": "{{Day("J-31")}}T09:30:00+01:00" } }
            """
        );

        using var filed = await _run.PostAsync("api/records", start);
        var turned = (await ServiceRun.JsonAsync(filed)).GetProperty("alsoTurned");

        Assert.Equal("J-31", turned[0].GetProperty("id").GetString());
        var disposition = turned[0]
            .GetProperty("changes")
            .EnumerateArray()
            .First(change => change.GetProperty("subject").GetString() == "job");
        Assert.Equal("release", disposition.GetProperty("was").GetString());
        Assert.Equal("stop", disposition.GetProperty("is").GetString());
        var record = await _run.GetJsonAsync("api/records/J-31");
        Assert.Equal(
            "stop",
            record.GetProperty("assessment").GetProperty("job").GetProperty("disposition").GetString()
        );
        Assert.Equal(
            "judged again in the light of J-31-start",
            record.GetProperty("turned")[0].GetProperty("judged").GetProperty("reason").GetString()
        );
        Assert.Equal(
            "J-31-start",
            record.GetProperty("others").GetProperty("records")[0].GetProperty("id").GetString()
        );
        Assert.Equal(2, record.GetProperty("versions")[0].GetProperty("assessments").GetArrayLength());
        // The report of today is another; the one from before stays filed.
        using var second = await _run.GetAsync("api/records/J-31/report");
        Assert.NotEqual(
            await first.Content.ReadAsByteArrayAsync(),
            await second.Content.ReadAsByteArrayAsync()
        );
        var page = await _run.TextAsync("records/J-31");
        Assert.Contains("judged again in the light of J-31-start", page, StringComparison.Ordinal);
        Assert.Contains("href=\"/records/J-31-start\"", page, StringComparison.Ordinal);
        Assert.Contains("job: may go out, now stop", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("api/records/J-32")]
    [InlineData("api/records/J-32/report")]
    [InlineData("records/J-32")]
    [InlineData("api/findings")]
    public async Task Head_OfWhatCanBeRead_AnswersAsGetWithoutTheBody(string path)
    {
        _ = await _run.PostAsync("api/records", Record("J-32"));
        using var whole = await _run.GetAsync(path);
        using var request = new HttpRequestMessage(HttpMethod.Head, path);

        using var head = await _run.Client.SendAsync(request);

        Assert.Equal(HttpStatusCode.OK, head.StatusCode);
        Assert.Equal(whole.Headers.ETag, head.Headers.ETag);
        Assert.Equal(whole.Content.Headers.ContentType, head.Content.Headers.ContentType);
        Assert.Empty(await head.Content.ReadAsByteArrayAsync());
    }

    [Fact]
    public async Task Report_AskedTwice_IsOneFileThatStandsInTheLog()
    {
        _ = await _run.PostAsync("api/records", Record("J-8"));

        using var first = await _run.GetAsync("api/records/J-8/report");
        using var again = await _run.GetAsync("api/records/J-8/report");

        Assert.Equal("application/pdf", first.Content.Headers.ContentType!.MediaType);
        var pdf = await first.Content.ReadAsByteArrayAsync();
        Assert.Equal("%PDF-"u8.ToArray(), pdf[..5]);
        Assert.Equal(pdf, await again.Content.ReadAsByteArrayAsync());
        var proof = await _run.TextAsync("api/records/J-8/report/proof");
        Assert.StartsWith("c2sp.org/tlog-proof@v1\n", proof, StringComparison.Ordinal);
        var reports = (await _run.GetJsonAsync("api/records/J-8"))
            .GetProperty("versions")[0]
            .GetProperty("reports");
        Assert.Equal(1, reports.GetArrayLength());
        var certificate = await _run.TextAsync("api/certificate");
        Assert.StartsWith("-----BEGIN CERTIFICATE-----", certificate, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Submit_FiftyAtOnce_FilesOne()
    {
        var before = (await SizeAsync());

        var answers = await Task.WhenAll(
            Enumerable.Range(0, 50).Select(_ => _run.PostAsync("api/records", Record("J-9")))
        );

        Assert.Single(answers, answer => answer.StatusCode == HttpStatusCode.Created);
        Assert.Equal(49, answers.Count(answer => answer.StatusCode == HttpStatusCode.OK));
        var versions = (await _run.GetJsonAsync("api/records/J-9")).GetProperty("versions");
        Assert.Equal(1, versions.GetArrayLength());
        Assert.InRange(await SizeAsync() - before, 2, 3);
    }

    [Fact]
    public async Task Ledger_ProofOfAnEntry_LeadsToTheCheckpoint()
    {
        using var filed = await _run.PostAsync("api/records", Record("J-10"));
        var index = (await ServiceRun.JsonAsync(filed)).GetProperty("record").GetProperty("index").GetInt64();

        var entry = await _run.BytesAsync($"api/ledger/entries/{index}");
        var proofText = await _run.BytesAsync($"api/ledger/entries/{index}/proof");
        var checkpoint = await _run.TextAsync("api/ledger/checkpoint");
        var growth = await _run.TextAsync("api/ledger/growth?from=1");

        Assert.Contains("J-10", Encoding.UTF8.GetString(entry), StringComparison.Ordinal);
        Assert.True(Evidence.Log.TlogProof.TryParse(proofText, out var proof, out _));
        Assert.True(proof.Proves(Evidence.Log.MerkleTree.LeafHash(entry)));
        Assert.Equal(checkpoint.Split('\n')[0], proof.Checkpoint.Head.Origin);
        Assert.StartsWith("old 1\n", growth, StringComparison.Ordinal);
        Assert.Contains("PUBLIC KEY", await _run.TextAsync("api/ledger/key"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("people", "tech-02")]
    [InlineData("machines", "M-02")]
    [InlineData("instruments", "HG-01")]
    [InlineData("procedures", "")]
    public async Task Registers_Each_AreListed(string register, string id)
    {
        var items = (await _run.GetJsonAsync("api/" + register)).GetProperty("items");

        Assert.NotEqual(0, items.GetArrayLength());
        Assert.Contains(
            items.EnumerateArray(),
            item => id.Length == 0 || item.GetProperty("id").GetString() == id
        );
    }

    private async Task<long> SizeAsync()
    {
        using var answer = await _run.GetAsync("api/ledger/checkpoint");
        return answer.IsSuccessStatusCode
            ? long.Parse(
                (await answer.Content.ReadAsStringAsync()).Split('\n')[1],
                System.Globalization.CultureInfo.InvariantCulture
            )
            : 0;
    }
}
