using System.Globalization;
using ServiceRules.Application.Library;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Application.Tests.Library;

/// <summary>What is wrong with a file of a folder of rules is told with its file, place, line and column.</summary>
public sealed class RuleFolderTests : IDisposable
{
    private readonly SpoiltFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Load_PrintedPairThatCannotBeOneLength_IsRefusedWhereItStands()
    {
        folder.Replace("sheets/reel-125-9-510.sheet.json", "0.012 mm", "0.025 mm");
        Diagnostic told = Errors().First();
        Assert.Equal("sheets/reel-125-9-510.sheet.json", told.File);
        Assert.Contains("cannot be roundings of one length", told.What, StringComparison.Ordinal);
        Assert.Equal((LineOf(told.File, "\"step\""), "/adjusters/0/step"), (told.Line, told.Pointer));
    }

    [Fact]
    public void Load_CrossCheck_TellsLineAndColumnToo()
    {
        folder.Replace("base/attachments-and-wear.rules.json", "\"reel-180-7-660\"", "\"reel-180-7-661\"");
        Diagnostic told = Assert.Single(Errors(), one => one.Code == DiagnosticCode.UnknownSheet);
        Assert.Equal("base/attachments-and-wear.rules.json", told.File);
        Assert.Equal(LineOf(told.File, "reel-180-7-661"), told.Line);
        Assert.True(told.Column > 1);
        Assert.StartsWith(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{told.File}:{told.Line}:{told.Column}: error SR0003"
            ),
            told.ToString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Load_CitationsBesideTheirPack_StandInTheBook()
    {
        Law("signed-off");

        LoadedRules loaded = folder.Load();

        Assert.True(loaded.IsSound, string.Join('\n', loaded.Diagnostics));
        var pack = loaded.Book.Packs.Single(one => one.Id.Text == "law");
        Assert.Equal("local codes first", pack.Precedence);
        Assert.Equal(["signed-off"], pack.Citations.Select(one => one.Rule.Text));
    }

    [Fact]
    public void Load_CitationOfNoRule_IsToldWhereItStands()
    {
        Law("unheard-of");

        Diagnostic told = Assert.Single(Errors());

        Assert.Equal((DiagnosticCode.UnknownRule, "law/a.citations.json"), (told.Code, told.File));
        Assert.Equal("/citations/0/rule", told.Pointer);
        Assert.True(told.Line > 1);
    }

    [Fact]
    public void Load_CitationsWithoutAPack_AreTold()
    {
        Law("signed-off");
        File.Delete(folder.At("law/pack.json"));

        Diagnostic told = Assert.Single(Errors());

        Assert.Equal((DiagnosticCode.FileMissing, "law/a.citations.json"), (told.Code, told.File));
    }

    private void Law(string rule)
    {
        Directory.CreateDirectory(folder.At("law"));
        File.WriteAllText(
            folder.At("law/pack.json"),
            """
            {
              "format": "rule-pack/1", "id": "law", "version": "1.0", "title": "A law", "layer": "jurisdiction",
              "precedence": "local codes first"
            }
            """
        );
        File.WriteAllText(
            folder.At("law/a.citations.json"),
            $$"""
            {
              "format": "citations/1",
              "citations": [
                { "rule": "{{rule}}", "source": "a law, 2011", "clauses": ["1"], "standing": "text-read" }
              ]
            }
            """
        );
    }

    [Fact]
    public void Load_RuleWithoutItsCases_DoesNotLoad()
    {
        File.Delete(folder.At("base/registers.cases.json"));
        LoadedRules loaded = folder.Load();
        Assert.False(loaded.IsSound);
        Assert.Equal(1, loaded.Diagnostics.Count(one => one.Code == DiagnosticCode.CaseMissing));
    }

    [Fact]
    public void Load_TextThatIsNoJson_IsToldAndNothingElseIsGuessed()
    {
        File.WriteAllText(folder.At("base/clearance.rules.json"), "{ \"format\": \"rules/1\", ");
        Assert.All(Errors(), one => Assert.Equal("base/clearance.rules.json", one.File));
    }

    [Fact]
    public void Load_ProblemsInSeveralFiles_AreAllTold()
    {
        folder.Replace("sheets/reel-125-9-510.sheet.json", "\"blades\"", "\"balde\"");
        folder.Replace("site-alder-reach/registers.json", "\"authorised\"", "\"authorized\"");
        Assert.Equal(
            ["sheets/reel-125-9-510.sheet.json", "site-alder-reach/registers.json"],
            Errors().Select(one => one.File).Distinct()
        );
    }

    [Fact]
    public void Load_MisspeltFileName_IsToldAndNotLeftOut()
    {
        File.Move(folder.At("base/release.rules.json"), folder.At("base/release.rule.json"));
        Diagnostic told = Assert.Single(Errors(), one => one.Code == DiagnosticCode.FileNotRead);
        Assert.Equal("base/release.rule.json", told.File);
    }

    [Fact]
    public void Load_RulesOfNoPack_AreTold()
    {
        File.Delete(folder.At("base/pack.json"));
        Assert.Contains(Errors(), one => one.Code == DiagnosticCode.FileMissing);
    }

    [Fact]
    public void Load_SecondSite_IsRefused()
    {
        Directory.CreateDirectory(folder.At("site-other"));
        File.Copy(folder.At("site-alder-reach/site.json"), folder.At("site-other/site.json"));
        Assert.Contains(Errors(), one => one.File == "site-other/site.json");
    }

    [Fact]
    public void Load_CaseFromAFixtureThatIsNotThere_IsTold()
    {
        folder.Replace(
            "base/clearance.cases.json",
            "\"from\": \"full-service-125\"",
            "\"from\": \"full-service-126\""
        );
        Diagnostic told = Assert.Single(Errors());
        Assert.Equal((DiagnosticCode.CaseCannotBeBuilt, "base/clearance.cases.json"), (told.Code, told.File));
        Assert.Equal(LineOf(told.File, "full-service-126"), told.Line);
    }

    [Fact]
    public void Load_NoSuchFolder_IsTold() =>
        Assert.Equal(
            DiagnosticCode.CannotBeRead,
            RuleFolder.Load(folder.At("not-there")).Diagnostics[0].Code
        );

    [Fact]
    public void Load_EmptyFolder_TellsWhatIsNeeded()
    {
        Directory.CreateDirectory(folder.At("empty"));
        Assert.All(
            RuleFolder.Load(folder.At("empty")).Diagnostics,
            one => Assert.Equal(DiagnosticCode.FileMissing, one.Code)
        );
    }

    [Fact]
    public void Load_MoreFilesThanAnySiteHas_EndsEarly()
    {
        Directory.CreateDirectory(folder.At("many"));
        for (int file = 0; file <= 2_000; file++)
        {
            File.WriteAllText(
                folder.At(string.Create(CultureInfo.InvariantCulture, $"many/{file}.json")),
                "{}"
            );
        }

        Assert.Contains(folder.Load().Diagnostics, one => one.Code == DiagnosticCode.TooMuch);
    }

    [Fact]
    public void Load_FileTooLarge_IsToldWithoutReadingItWhole()
    {
        using (FileStream large = File.Create(folder.At("sheets/large.sheet.json")))
        {
            large.SetLength(50 * 1024 * 1024);
        }

        Assert.Equal("sheets/large.sheet.json", Assert.Single(Errors()).File);
    }

    private IEnumerable<Diagnostic> Errors() =>
        folder.Load().Diagnostics.Where(one => one.Level is DiagnosticLevel.Error);

    private int LineOf(string file, string text) =>
        Array.FindIndex(
            File.ReadAllLines(folder.At(file)),
            line => line.Contains(text, StringComparison.Ordinal)
        ) + 1;
}
