using ServiceRules.Application.Accounts;
using ServiceRules.Application.Tests.Filed;

namespace ServiceRules.Application.Tests.Accounts;

/// <summary>What an account or a key may be given where there are several sites.</summary>
public sealed class GrantTests
{
    private static string? Fault(Roles roles, string? person, string? at)
    {
        var first = RecordFiles.Rules.Site! with { Name = "Alder" };
        return Grant.Fault(roles, person, at, [first, first with { Name = "Birch", People = [] }]);
    }

    [Theory]
    [InlineData(Roles.Lead, null, "Alder")]
    [InlineData(Roles.Lead, "lead-01", "Alder")]
    [InlineData(Roles.Technician, "tech-02", "Alder")]
    [InlineData(Roles.Lead, null, "Birch")]
    [InlineData(Roles.Lead | Roles.Administrator, null, "*")]
    [InlineData(Roles.Officer, null, "*")]
    public void Grant_ThatMayBe_IsTaken(Roles roles, string? person, string at) =>
        Assert.Null(Fault(roles, person, at));

    [Theory]
    [InlineData(Roles.None, null, "Alder", "role")]
    [InlineData(Roles.Lead, null, null, "no site is given")]
    [InlineData(Roles.Lead, null, "Cedar", "`Alder`, `Birch`")]
    [InlineData(Roles.Lead, "lead-01", "Birch", "register of the site")]
    [InlineData(Roles.Technician, "tech-02", "Birch", "register of the site")]
    [InlineData(Roles.Technician, "tech-02", "*", "a technician is of one site")]
    [InlineData(Roles.Technician | Roles.Lead, "tech-02", "*", "a technician is of one site")]
    [InlineData(Roles.Lead, "lead-01", "*", "register of one site")]
    public void Grant_ThatMayNotBe_IsRefused(Roles roles, string? person, string? at, string told) =>
        Assert.Contains(told, Fault(roles, person, at), StringComparison.Ordinal);
}
