using System.IO.Compression;
using System.Net.Http.Headers;
using System.Text.Json;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Library;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Sites;

/// <summary>
/// Packs and sheets are held against the registers of the sites that whoever asks sees; what judges at all sites is stored by who is
/// of all. The second site here is in a jurisdiction of which the first one knows nothing.
/// </summary>
public sealed class PacksAtSitesTests : IAsyncLifetime
{
    private const string Jurisdiction = "us-ca-t8-3314";

    private static readonly string Rules = ReferenceFiles.InRepository("rules");

    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-sites-").FullName;
    private ServiceRun _run = null!;

    private static string OneRule => Uri.EscapeDataString(ServiceRun.Rules.Cases[0].Case.Rule);

    public async Task InitializeAsync() =>
        _run = await ServiceRun.StartAsync(
            null,
            settings =>
            {
                var site = Path.Combine(TwoSites.MakeSecond(_folder), "site.json");
                File.WriteAllText(
                    site,
                    File.ReadAllText(site)
                        .Replace(
                            "\"lockStyle\"",
                            $"\"jurisdictions\": [\"{Jurisdiction}\"], \"lockStyle\"",
                            StringComparison.Ordinal
                        )
                );
                var second = RuleFolder.LoadSite(Path.GetDirectoryName(site)!, settings.Rules);
                Assert.True(second.IsSound, string.Join("\n", second.Diagnostics));
                return settings with { Sites = [second] };
            }
        );

    public async Task DisposeAsync()
    {
        await _run.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Theory]
    [InlineData(TwoSites.First)]
    [InlineData(TwoSites.Second)]
    [InlineData(GrantedSite.Every)]
    public async Task Check_OfTheRulesInForce_IsForWhoeverLeadsASite(string site)
    {
        var (status, told) = await PostAsync(site, "api/packs/check?rule=" + OneRule, Zip(""));

        Assert.True(status == 200, told.GetRawText());
        Assert.True(told.GetProperty("isInForce").GetBoolean());
    }

    [Theory]
    [InlineData(TwoSites.First, 200)]
    [InlineData(TwoSites.Second, 422)]
    [InlineData(GrantedSite.Every, 422)]
    public async Task Check_OfRulesThatFitOneSiteAlone_TellsEachItsOwn(string site, int expected)
    {
        var (status, told) = await PostAsync(site, "api/packs/check?rule=" + OneRule, Zip(Jurisdiction));

        Assert.True(status == expected, told.GetRawText());
        if (expected == 422)
        {
            var problem = Assert.Single(told.GetProperty("problems").EnumerateArray());
            Assert.Equal("site-birch-hollow/site.json", problem.GetProperty("file").GetString());
            Assert.Equal("/jurisdictions/0", problem.GetProperty("pointer").GetString());
        }
        else
        {
            Assert.DoesNotContain("birch", told.GetRawText(), StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public async Task Stored_ByWhoIsOfOneSite_OrNotFitForAllOfThem_IsRefused()
    {
        var ofOne = await PostAsync(TwoSites.Second, "api/packs", Zip(""));
        var unfit = await PostAsync(GrantedSite.Every, "api/packs", Zip(Jurisdiction));

        Assert.Equal((403, 422), (ofOne.Status, unfit.Status));
        Assert.Contains("site-birch-hollow/site.json", unfit.Told.GetRawText(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Check_ByWhoIsOfNoSite_TellsNothing()
    {
        var (status, _) = await PostAsync(null, "api/packs/check?rule=" + OneRule, Zip(""));

        Assert.Equal(403, status);
    }

    private async Task<(int Status, JsonElement Told)> PostAsync(string? site, string path, byte[] zip)
    {
        using var client = _run.ClientWith(_run.NewKey(Roles.Lead, site: site));
        using var body = new ByteArrayContent(zip);
        body.Headers.ContentType = new MediaTypeHeaderValue("application/zip");
        using var answer = await client.PostAsync(new Uri(path, UriKind.Relative), body);
        return ((int)answer.StatusCode, await ServiceRun.JsonAsync(answer));
    }

    private static byte[] Zip(string without)
    {
        using var held = new MemoryStream();
        using (var zip = new ZipArchive(held, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var file in Directory.EnumerateFiles(Rules, "*.json", SearchOption.AllDirectories))
            {
                var name = Path.GetRelativePath(Rules, file).Replace('\\', '/');
                if (without.Length == 0 || !name.StartsWith(without + "/", StringComparison.Ordinal))
                {
                    using var entry = zip.CreateEntry(name).Open();
                    entry.Write(File.ReadAllBytes(file));
                }
            }
        }

        return held.ToArray();
    }
}
