namespace ServiceRules.Host.Apis;

internal static class MediaTypes
{
    public const string Json = "application/json";
    public const string Pdf = "application/pdf";
    public const string Zip = "application/zip";
    public const string Text = "text/plain; charset=utf-8";
    public const string PlainText = "text/plain";
    public const string Pem = "application/x-pem-file";
    public const string Lines = "application/jsonl";
    public const string Csv = "text/csv";
}
