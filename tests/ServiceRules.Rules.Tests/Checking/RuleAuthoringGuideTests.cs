using System.Text.RegularExpressions;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.TestKit;

namespace ServiceRules.Rules.Tests.Checking;

/// <summary>The page of diagnostics has a section for every code, and for no other.</summary>
public class RuleAuthoringGuideTests
{
    [Fact]
    public void Page_SectionsOfCodes_AreComplete()
    {
        var page = File.ReadAllText(ReferenceFiles.InRepository("docs", "diagnostics.md"));
        Assert.Equal(
            typeof(DiagnosticCode).GetFields().Select(field => (string)field.GetRawConstantValue()!).Order(),
            Regex
                .Matches(page, @"^## (SR\d{4})$", RegexOptions.Multiline)
                .Select(match => match.Groups[1].Value)
        );
    }
}
