namespace ServiceRules.Host.Tests.Notices;

/// <summary>Records that somebody is told of, and who.</summary>
internal static class NoticeFiling
{
    private const string Secret = "whsec_MDEyMzQ1Njc4OTAxMjM0NTY3ODkwMTIz";

    public static string Webhooks(params (string Name, Uri Address)[] all) =>
        "\"webhooks\": ["
        + string.Join(
            ", ",
            all.Select(one =>
                $$"""{ "name": "{{one.Name}}", "address": "{{one.Address}}", "secret": "{{Secret}}" }"""
            )
        )
        + "]";

    /// <summary>Files a record that holds.</summary>
    public static async Task FileAsync(ServiceRun run, string id, string day = "2026-04-13")
    {
        using var filed = await run.PostAsync(
            "api/records",
            ServiceRun.Record(
                "height-check",
                ("F-height-check", id),
                ("3.82 mm", "4.90 mm"),
                ("2026-04-13", day)
            )
        );
        Assert.True(filed.IsSuccessStatusCode, await filed.Content.ReadAsStringAsync());
    }
}
