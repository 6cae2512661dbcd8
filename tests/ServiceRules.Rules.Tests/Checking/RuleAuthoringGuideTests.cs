using System.Text.RegularExpressions;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.TestKit;

namespace ServiceRules.Rules.Tests.Checking;

/// <summary>The guide for authors names every code, and no other.</summary>
public class RuleAuthoringGuideTests
{
    [Fact]
    public void Guide_TableOfCodes_IsComplete()
    {
        var guide = File.ReadAllText(ReferenceFiles.InRepository("docs", "rule-authoring.md"));
        Assert.Equal(
            typeof(DiagnosticCode).GetFields().Select(field => (string)field.GetRawConstantValue()!).Order(),
            Regex
                .Matches(guide, @"^\| (SR\d{4}) \|", RegexOptions.Multiline)
                .Select(match => match.Groups[1].Value)
        );
    }
}
