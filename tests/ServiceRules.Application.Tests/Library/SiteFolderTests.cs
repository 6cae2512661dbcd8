using ServiceRules.Application.Library;
using ServiceRules.Application.Tests.Filed;

namespace ServiceRules.Application.Tests.Library;

/// <summary>The folder of a further site: registers of its own, under the packs and sheets of a folder of rules.</summary>
public sealed class SiteFolderTests : IDisposable
{
    private const string Site = "site-alder-reach";

    private readonly SpoiltFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void LoadSite_SoundFolder_HasRegistersOfItsOwnAndTheSameRules()
    {
        folder.Replace(Site + "/site.json", "Alder Reach Parks Trust", "Birch Hollow");
        folder.Replace(Site + "/registers.json", "\"HG-05\"", "\"HG-77\"");
        var rules = RecordFiles.Rules;

        var site = RuleFolder.LoadSite(folder.At(Site), rules);

        Assert.True(site.IsSound, string.Join("\n", site.Diagnostics));
        Assert.Equal("Birch Hollow", site.Site!.Name);
        Assert.Contains(site.Site.Instruments, gauge => gauge.Id.Text == "HG-77");
        Assert.DoesNotContain(site.Site.Instruments, gauge => gauge.Id.Text == "HG-05");
        Assert.Same(rules.Book, site.Book);
        Assert.Equal(rules.Site!.Procedures.Length, site.Site.Procedures.Length);
        Assert.Equal(rules.Site.SettingOrders.Length, site.Site.SettingOrders.Length);
    }

    [Fact]
    public void LoadSite_ProcedureOfSomebodyOutsideTheRegister_IsToldAsInAFolderOfRules()
    {
        folder.Replace(Site + "/registers.json", "\"officer-01\"", "\"officer-77\"");

        Assert.False(Loaded(Site).IsSound);
    }

    [Theory]
    [InlineData("", "no file of a site")]
    [InlineData("base", "no site in this folder")]
    [InlineData("sheets", "no file of a site")]
    [InlineData("nowhere", "cannot be read as a folder")]
    public void LoadSite_FolderThatIsNone_IsTold(string place, string told) =>
        Assert.Contains(Loaded(place).Diagnostics, one => one.What.Contains(told, StringComparison.Ordinal));

    [Fact]
    public void LoadSite_WithoutRegisters_IsTold()
    {
        File.Delete(folder.At(Site + "/registers.json"));

        Assert.Contains(
            Loaded(Site).Diagnostics,
            one => one.What.Contains("registers.json", StringComparison.Ordinal)
        );
    }

    private LoadedRules Loaded(string place) => RuleFolder.LoadSite(folder.At(place), RecordFiles.Rules);
}
