"""x"""
import re

def test_smoke(owner, demo_case, home):
    case = demo_case()
    r = owner.get(f"/cases/{case}/claim"); assert r.status_code == 200
    H = {"HX-Request": "true"}
    r = owner.post(f"/cases/{case}/claim/items", {"model_year": "1956", "base": "1"}, headers=H); print(r.status_code, r.content.decode()[:1500])
    r = owner.post(f"/cases/{case}/claim/items", {"model_year": "1970", "base": "2"}, headers=H); print(r.status_code, r.content.decode()[:1500])
    r = owner.post(f"/cases/{case}/claim/sums/new", {"amount": "12x", "kind":"offer", "base": "2"}, headers=H); print(r.status_code, r.content.decode()[:1500])
    r = owner.post(f"/cases/{case}/claim/sums/new", {"amount": "120", "kind":"offer", "base": "2"}, headers=H); print(r.status_code, r.content.decode()[:500])
    r = owner.post(f"/cases/{case}/claim/sums/0", {"deed": "remove", "count":"2", "base": "3"}, headers=H); print(r.status_code, r.content.decode()[:500])
    r = owner.post(f"/cases/{case}/claim/prior-odds/new", {"question": "core engine", "odds":"30", "reason": "few kept it"}, headers=H); print(r.status_code, re.findall("[^>]*of a hundred[^<]*", r.content.decode()))
    r = owner.post(f"/cases/{case}/claim/statements/new", {"about": "motor", "says":"x", "origin": "first"}); print(r.status_code, re.findall('problem">[^§]{200}', r.content.decode()))
    r = owner.post(f"/cases/{case}/claim/book", {"book":"jaguar-1948-1974"}); print(r.status_code, r.content.decode()[:300])
    r = owner.get(f"/cases/{case}/claim"); print(r.status_code, re.findall('class="strip[^§]{400}', r.content.decode()))
    print(owner.get("/profile").status_code, owner.post("/profile", {"name":"", "fee_depends": "no"}).status_code, owner.post("/profile", {"name":"Ines Calder", "fee_depends": "no"}).status_code)
    r = owner.post(f"/cases/{case}/claim/examiners/new", {"deed":"me"}, headers=H); print(r.status_code, r.content.decode()[:300])
