#pragma once

#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include <fstream>
#include <string>

namespace jarful::testing {

/// A schema of docs/schemas and what it says about documents.
class DocumentedSchema {
  public:
    explicit DocumentedSchema(const std::string& name) {
        std::ifstream file(std::string(JARFUL_SOURCE_DIR) + "/docs/schemas/" + name + ".json");
        text_ = nlohmann::json::parse(file);
        const valijson::adapters::NlohmannJsonAdapter adapter(text_);
        valijson::SchemaParser parser(valijson::SchemaParser::kDraft7);
        parser.populateSchema(adapter, schema_);
    }
    /// Empty if the document is as the schema says.
    [[nodiscard]] std::string faults(const nlohmann::json& document) const {
        valijson::Validator validator(valijson::Validator::kStrongTypes);
        const valijson::adapters::NlohmannJsonAdapter target(document);
        valijson::ValidationResults results;
        if (validator.validate(schema_, target, &results)) return "";
        std::string out = "refused";
        valijson::ValidationResults::Error error;
        while (results.popError(error)) {
            for (const std::string& step : error.context)
                out += step;
            out += ": " + error.description + "\n";
        }
        return out;
    }

  private:
    nlohmann::json text_;
    valijson::Schema schema_;
};

} // namespace jarful::testing
