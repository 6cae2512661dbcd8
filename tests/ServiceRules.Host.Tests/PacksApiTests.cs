using System.IO.Compression;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests;

public sealed class PacksApiTests(SharedService shared) : IClassFixture<SharedService>
{
    private static readonly string Rules = ReferenceFiles.InRepository("rules");

    private readonly ServiceRun _run = shared.Run;

    private static string OneRule => ServiceRun.Rules.Cases[0].Case.Rule;

    [Fact]
    public async Task Packs_InForce_AreTheOnesThatAnAssessmentNames()
    {
        var packs = await _run.GetJsonAsync("api/packs");

        using var judged = await _run.PostAsync("api/judgements", ServiceRun.Record("height-check"));
        Assert.Contains(
            packs.GetProperty("digest").GetString()!,
            await judged.Content.ReadAsStringAsync(),
            StringComparison.Ordinal
        );
        Assert.Contains(
            packs.GetProperty("packs").EnumerateArray(),
            pack => pack.GetProperty("id").GetString() == "base"
        );
        Assert.NotEmpty(packs.GetProperty("sheets").EnumerateArray());
    }

    [Fact]
    public async Task Check_OfTheRulesInForce_FindsNothingWrongAndLeavesTheRegistersOut()
    {
        using var answer = await CheckAsync(Zip(Shipped()), OneRule);

        var told = await ServiceRun.JsonAsync(answer);
        Assert.True(answer.StatusCode == HttpStatusCode.OK, told.GetRawText());
        Assert.True(told.GetProperty("isInForce").GetBoolean());
        Assert.True(told.GetProperty("cases").GetInt32() > 0);
        Assert.Equal(told.GetProperty("toCover").GetInt32(), told.GetProperty("covered").GetInt32());
        Assert.Contains(
            told.GetProperty("leftOut").EnumerateArray(),
            file => file.GetString()!.EndsWith("/registers.json", StringComparison.Ordinal)
        );
        Assert.Empty(Unpacked());
    }

    [Fact]
    public async Task Check_OfAWordThatNoRuleKnows_TellsFileAndPointer()
    {
        var files = Shipped();
        var file = files.Keys.First(name => name.EndsWith(".rules.json", StringComparison.Ordinal));
        var changed = JsonNode.Parse(files[file])!;
        changed["rules"]![0]!["severity"] = "enormous";
        files[file] = Encoding.UTF8.GetBytes(changed.ToJsonString());

        using var answer = await CheckAsync(Zip(files), OneRule);

        var problem = (await RefusedAsync(answer)).GetProperty("problems")[0];
        Assert.Equal(file, problem.GetProperty("file").GetString());
        Assert.Equal("/rules/0/severity", problem.GetProperty("pointer").GetString());
    }

    [Fact]
    public async Task Check_OfACaseThatExpectsSomethingElse_TellsTheCase()
    {
        var files = Shipped();
        var file = ServiceRun.Rules.Cases[0].File;
        var changed = JsonNode.Parse(files[file])!;
        var expects = changed["cases"]![0]!["expect"]!.GetValue<string>();
        changed["cases"]![0]!["expect"] = expects == "met" ? "not-met" : "met";
        files[file] = Encoding.UTF8.GetBytes(changed.ToJsonString());

        using var answer = await CheckAsync(Zip(files), OneRule);

        Assert.Contains(
            (await RefusedAsync(answer)).GetProperty("problems").EnumerateArray(),
            problem =>
                problem.GetProperty("file").GetString() == file
                && problem
                    .GetProperty("pointer")
                    .GetString()!
                    .StartsWith("/cases/0", StringComparison.Ordinal)
        );
        Assert.Empty(Unpacked());
    }

    [Theory]
    [InlineData("../out.json")]
    [InlineData("base/../../out.json")]
    [InlineData("/tmp/out.json")]
    [InlineData("C:/out.json")]
    [InlineData("..\\out.json")]
    [InlineData("base/./out.json")]
    [InlineData("base/.hidden.json")]
    [InlineData("base/out.json\n")]
    public async Task Check_OfANameThatLeadsElsewhere_IsRefusedUnread(string name)
    {
        var files = Shipped();
        files[name] = "{}"u8.ToArray();

        using var answer = await CheckAsync(Zip(files), OneRule);

        _ = await RefusedAsync(answer);
        Assert.Empty(Unpacked());
    }

    [Fact]
    public async Task Check_OfAnArchiveThatUnpacksToFarMore_IsRefused()
    {
        using var answer = await CheckAsync(
            Zip(new() { ["base/pack.json"] = new byte[40 * 1024 * 1024] }),
            null
        );

        Assert.Contains(
            "32 MiB",
            (await RefusedAsync(answer)).GetProperty("accepted").GetString()!,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Check_OfBrokenArchives_IsNeverAFailureOfTheService()
    {
        var whole = Zip(new() { ["base/pack.json"] = "{}"u8.ToArray(), ["a/b.json"] = "[]"u8.ToArray() });
        var chance = new Random(5);
        for (var round = 0; round < 60; round++)
        {
            var broken = whole.ToArray();
            for (var flips = 0; flips < 4; flips++)
            {
                broken[chance.Next(broken.Length)] ^= (byte)(1 << chance.Next(8));
            }

            using var answer = await CheckAsync(
                round % 3 == 0 ? broken[..chance.Next(broken.Length)] : broken,
                null
            );
            Assert.Equal(422, (int)answer.StatusCode);
        }
    }

    [Fact]
    public async Task Stored_OfOtherRules_StandUnderTheirDigestOnceAndJudgeNothing()
    {
        var files = Shipped();
        var changed = JsonNode.Parse(files["base/pack.json"])!;
        changed["title"] = "the same with another title";
        files["base/pack.json"] = Encoding.UTF8.GetBytes(changed.ToJsonString());
        var before = (await _run.GetJsonAsync("api/packs")).GetProperty("digest").GetString();

        using var first = await ZipAsync("api/packs", Zip(files));
        using var second = await ZipAsync("api/packs", Zip(files));

        var told = await ServiceRun.JsonAsync(first);
        Assert.True(first.StatusCode == HttpStatusCode.Created, told.GetRawText());
        Assert.Equal(HttpStatusCode.OK, second.StatusCode);
        Assert.False(told.GetProperty("isInForce").GetBoolean());
        var digest = told.GetProperty("rules").GetProperty("digest").GetString();
        var packs = await _run.GetJsonAsync("api/packs");
        Assert.Equal(before, packs.GetProperty("digest").GetString());
        Assert.Single(
            packs.GetProperty("stored").EnumerateArray(),
            one => one.GetProperty("digest").GetString() == digest
        );
        Assert.Empty(Unpacked());
    }

    [Fact]
    public async Task Stored_OfRulesWithAFault_AreNotKept()
    {
        var files = Shipped();
        files["base/more.rules.json"] = "{}"u8.ToArray();
        var before = (await _run.GetJsonAsync("api/packs")).GetProperty("stored").GetArrayLength();

        using var answer = await ZipAsync("api/packs", Zip(files));

        _ = await RefusedAsync(answer);
        Assert.Equal(before, (await _run.GetJsonAsync("api/packs")).GetProperty("stored").GetArrayLength());
    }

    [Fact]
    public async Task Check_ThatTakesLongerThanCasesMay_IsToldAsSuch()
    {
        await using var run = await ServiceRun.StartAsync(
            null,
            settings =>
                settings with
                {
                    Limits = ServiceLimits.Default with { PackTime = TimeSpan.FromMilliseconds(1) },
                }
        );

        using var answer = await run.PostAsync("api/packs/check", Zip(Shipped()), AsZip);

        Assert.Contains(
            "time that they have",
            (await RefusedAsync(answer)).GetProperty("detail").GetString()!,
            StringComparison.Ordinal
        );
    }

    private static void AsZip(HttpRequestMessage request) =>
        request.Content!.Headers.ContentType = new MediaTypeHeaderValue("application/zip");

    private Task<HttpResponseMessage> ZipAsync(string path, byte[] zip) => _run.PostAsync(path, zip, AsZip);

    private static async Task<JsonElement> RefusedAsync(HttpResponseMessage answer)
    {
        var told = await ServiceRun.JsonAsync(answer);
        Assert.True((int)answer.StatusCode == 422, told.GetRawText());
        return told;
    }

    private static Dictionary<string, byte[]> Shipped() =>
        Directory
            .EnumerateFiles(Rules, "*.json", SearchOption.AllDirectories)
            .ToDictionary(
                file => Path.GetRelativePath(Rules, file).Replace('\\', '/'),
                File.ReadAllBytes,
                StringComparer.Ordinal
            );

    private static byte[] Zip(Dictionary<string, byte[]> files)
    {
        using var held = new MemoryStream();
        using (var zip = new ZipArchive(held, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, content) in files)
            {
                using var entry = zip.CreateEntry(name).Open();
                entry.Write(content);
            }
        }

        return held.ToArray();
    }

    private string[] Unpacked()
    {
        var scratch = Path.Combine(_run.Folder, "data", "scratch");
        return Directory.Exists(scratch) ? Directory.GetFileSystemEntries(scratch) : [];
    }

    private async Task<HttpResponseMessage> CheckAsync(byte[] zip, string? rule)
    {
        var path = "api/packs/check" + (rule is null ? "" : "?rule=" + Uri.EscapeDataString(rule));
        return await ZipAsync(path, zip);
    }
}
