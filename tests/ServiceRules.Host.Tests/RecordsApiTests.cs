using System.Net;
using System.Text;
using ServiceRules.Client;
using ServiceRules.Host.Tests.Clients;

namespace ServiceRules.Host.Tests;

public sealed class RecordsApiTests(SharedService shared) : IClassFixture<SharedService>
{
    private readonly ServiceRun _run = shared.Run;

    private static byte[] Record(string id, params (string, string)[] changes) =>
        ServiceRun.Record("height-check", [("F-height-check", id), .. changes, ("2026-04-13", Day(id))]);

    private static ServiceRecord Typed(string id, params (string, string)[] changes) =>
        TypedRecord.Of(Record(id, changes));

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
        var again = await _run.Typed.SubmitRecordAsync(Typed("J-1"));
        var other = await Assert.ThrowsAsync<ServiceException<ProblemDocument>>(() =>
            _run.Typed.SubmitRecordAsync(Typed("J-1", ("3.82 mm", "3.85 mm")))
        );

        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        Assert.Equal("/api/records/J-1", first.Headers.Location!.ToString());
        var filed = await ServiceRun.JsonAsync(first);
        Assert.Equal("release", filed.GetProperty("disposition").GetString());
        Assert.Equal("assessment/1", filed.GetProperty("assessment").GetProperty("format").GetString());
        Assert.False(again.IsNew);
        Assert.Equal(filed.GetProperty("record").GetProperty("index").GetInt64(), again.Record.Index);
        Assert.Equal(409, other.StatusCode);
        var difference = other.Result.Differences![0];
        Assert.Equal("/units/0/entries/1/value", difference.Pointer);
        Assert.Equal("\"3.82 mm\"", difference.Stood);
        Assert.Equal("\"3.85 mm\"", difference.Sent);
    }

    [Fact]
    public async Task Submit_OpenJobFurtherOn_IsAnotherVersion()
    {
        var begun = await _run.Typed.SubmitRecordAsync(TypedRecord.Of(Open("J-2", "")));
        var further = await _run.Typed.SubmitRecordAsync(
            TypedRecord.Of(Open("J-2", "ragged cut on the left"))
        );

        Assert.True(begun.IsNew);
        Assert.True(further.IsNew);
        var record = await _run.Typed.ReadRecordAsync("J-2");
        Assert.Equal(2, record.Versions.Count);
        Assert.Equal("ragged cut on the left", record.Record!.Complaint);
    }

    [Fact]
    public async Task Amend_WithPersonAndReason_KeepsBothVersions()
    {
        _ = await _run.Typed.SubmitRecordAsync(Typed("J-3"));
        var corrected = Typed("J-3", ("3.82 mm", "3.84 mm"));

        var amended = await _run.Typed.AmendRecordAsync("J-3", corrected, "lead-01", "read wrong");
        var again = await _run.Typed.AmendRecordAsync("J-3", corrected, "lead-01", "read wrong");

        Assert.True(amended.IsNew);
        Assert.False(again.IsNew);
        var versions = (await _run.Typed.ReadRecordAsync("J-3")).Versions;
        Assert.Equal(2, versions.Count);
        var newest = versions[1].Entry;
        Assert.Equal("amendment", newest.Kind);
        Assert.Equal("read wrong", newest.Reason);
        // The log names people by pseudonyms alone.
        Assert.StartsWith("p-", newest.By, StringComparison.Ordinal);
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
        _ = await _run.Typed.SubmitRecordAsync(Typed("J-8"));

        using var first = await _run.GetAsync("api/records/J-8/report");
        var again = await TypedRecord.BytesAsync(_run.Typed.ReadReportAsync("J-8"));

        Assert.Equal("application/pdf", first.Content.Headers.ContentType!.MediaType);
        var pdf = await first.Content.ReadAsByteArrayAsync();
        Assert.Equal("%PDF-"u8.ToArray(), pdf[..5]);
        Assert.Equal(pdf, again);
        var proof = await _run.Typed.ReadReportProofAsync("J-8");
        Assert.StartsWith("c2sp.org/tlog-proof@v1\n", proof, StringComparison.Ordinal);
        Assert.Single((await _run.Typed.ReadRecordAsync("J-8")).Versions[0].Reports);
        Assert.StartsWith(
            "-----BEGIN CERTIFICATE-----",
            await TypedRecord.TextAsync(_run.Typed.ReadCertificateAsync()),
            StringComparison.Ordinal
        );
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
        var index = (await _run.Typed.SubmitRecordAsync(Typed("J-10"))).Record.Index;

        // Byte for byte: it is a leaf of the tree.
        var entry = await _run.BytesAsync($"api/ledger/entries/{index}");
        var told = await _run.Typed.ReadEntryAsync(index);
        var proofText = Encoding.UTF8.GetBytes(await _run.Typed.ReadEntryProofAsync(index));
        var checkpoint = await _run.Typed.ReadCheckpointAsync();
        var growth = await _run.Typed.ReadGrowthAsync(1);

        Assert.Contains("J-10", Encoding.UTF8.GetString(entry), StringComparison.Ordinal);
        Assert.Equal(("record", "J-10"), (told.Kind, told.Subject));
        Assert.True(Evidence.Log.TlogProof.TryParse(proofText, out var proof, out _));
        Assert.True(proof.Proves(Evidence.Log.MerkleTree.LeafHash(entry)));
        Assert.Equal(checkpoint.Split('\n')[0], proof.Checkpoint.Head.Origin);
        Assert.StartsWith("old 1\n", growth, StringComparison.Ordinal);
        Assert.Contains(
            "PUBLIC KEY",
            await TypedRecord.TextAsync(_run.Typed.ReadLogKeyAsync()),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Registers_Each_AreListed()
    {
        var people = await _run.Typed.ListPeopleAsync();
        var machines = await _run.Typed.ListMachinesAsync();
        var instruments = await _run.Typed.ListInstrumentsAsync();
        var procedures = await _run.Typed.ListProceduresAsync();

        Assert.Contains("tech-02", people.Items.Select(person => person.Id));
        Assert.Contains("M-02", machines.Items.Select(machine => machine.Id));
        Assert.Contains("HG-01", instruments.Items.Select(instrument => instrument.Id));
        Assert.All(procedures.Items, procedure => Assert.NotEqual("", procedure.Id));
        Assert.NotEmpty(procedures.Items);
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
