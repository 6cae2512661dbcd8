namespace ServiceRules.Host.Sites;

/// <summary>What the description of the interface says of the site that a request may name.</summary>
internal static class SiteText
{
    public const string Text = "the site, where there are several and who asks is of all of them";
}
